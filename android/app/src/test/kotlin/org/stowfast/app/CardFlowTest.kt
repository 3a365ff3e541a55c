package org.stowfast.app

import android.content.Intent
import androidx.compose.ui.test.assertIsDisplayed
import androidx.compose.ui.test.hasText
import androidx.compose.ui.test.onAllNodesWithTag
import androidx.compose.ui.test.onNodeWithTag
import androidx.compose.ui.test.onNodeWithText
import androidx.compose.ui.test.performClick
import androidx.compose.ui.test.performTextInput
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.Shadows.shadowOf
import org.stowfast.engine.CardPage

/** How to use what is fitted: from the first page, from a step and from what shows red, and back again. */
@RunWith(RobolectricTestRunner::class)
class CardFlowTest : OnScreen() {
    @Test
    fun everyCardIsListedAndSaysAllThatItHas() {
        chooseDemo()
        tap("cards")
        draw("real-cards")
        for (row in engine.get { cards() }) {
            tap("card-" + row.id)
            val page = engine.get { card(row.id) }
            screen.onNodeWithTag("where").assertIsDisplayed()
            for (section in page.sections) {
                page("section-" + section.id, tag = true)
                for (line in section.lines) screen.onNodeWithText(line).assertExists()
            }
            back()
        }
    }

    @Test
    fun aCardIsReachedFromAStepAndTheRoutineIsUnharmed() {
        chooseDemo()
        begin("ready_to_drive")
        confirmUntil { it.steps.size == 1 && card(it.steps.first()) != null }
        val before = routine()
        val card = card(before.stops.first().gestures.first().steps.first()) ?: throw AssertionError("no card")
        more("card")
        isOnShow(engine.get { card(card) })
        draw("real-card")
        back()
        assertEquals(before, routine())
        screen.onNodeWithTag("current-step").assertIsDisplayed()
        screen.onNodeWithTag("confirm").assertIsDisplayed()
        confirm()
    }

    @Test
    fun whatWasMarkedOnAListIsStillMarkedAfterItsCardWasRead() {
        chooseDemo()
        begin("ready_to_drive")
        confirmUntil { it.steps.size > 1 && it.steps.any { step -> card(step) != null } }
        val list = gesture()
        val step = list.steps.first { card(it) != null }
        line(step)
        screen.onNodeWithTag("more-cannot").performClick()
        screen.onNodeWithText("Mark this line").performClick()
        screen.waitForIdle()
        val card = card(step).orEmpty()
        line(step)
        tap("more-card")
        isOnShow(engine.get { card(card) })
        back()
        assertEquals(list, gesture())
        screen.onNodeWithTag("line-$step").assertExists()
        assertEquals("the mark", 1, screen.onAllNodes(hasText("It cannot be done", substring = true)).fetchSemanticsNodes().size)
        confirm()
        assertEquals("it is recorded with its list", 1, routine().stuck.size)
    }

    @Test
    fun anAlertLeadsToItsCardsAndACardToItsAlertsAndRoutines() {
        chooseDemo()
        tap("red")
        tap("alert-waste.full")
        val card = engine.get { alert("waste.full") }.cards.first()
        tap("card-" + card.id)
        val page = engine.get { card(card.id) }
        isOnShow(page)
        tap("routine-" + page.routines.first().id)
        screen.onNodeWithTag("summary").assertIsDisplayed()
        back()
        tap("alert-waste.full")
        screen.onNodeWithTag("sign").assertIsDisplayed()
        back()
        isOnShow(page)
        back()
        screen.onNodeWithText("A red lamp or an alarm").assertIsDisplayed()
    }

    @Test
    fun aCardSaysWhatMayBeDoneNowAndWhyNot() {
        chooseDemo()
        for (fact in listOf("boiler.cover" to "on", "pump.power" to "off")) engine.get { report(fact.first, fact.second) }
        tap("cards")
        tap("card-boiler")
        val refused = engine.get { card("boiler") }.steps.first { it.id == "boiler.heat_gas" }
        assertTrue(refused.refused)
        page("may-boiler.heat_gas", tag = true)
        draw("real-card-moves")
        tap("may-boiler.heat_gas")
        val page = engine.get { may("boiler.heat_gas") }
        screen.onNodeWithText(page.answer).assertIsDisplayed()
        for (reason in page.against) screen.onNodeWithText(reason.text).assertExists()
        draw("real-may")
        back()
        screen.onNodeWithText(engine.get { card("boiler") }.card.title).assertIsDisplayed()
    }

    @Test
    fun aStepThatNoPlanHasIsLookedUpByItsWordsAndAsked() {
        chooseDemo()
        engine.get { report("pump.power", "off") }
        val planned = engine.get { preview("ready_to_drive") }.steps.map { it.id }
        assertTrue("pump.switch_on" !in planned)
        tap("cards")
        tap("steps")
        screen.onNodeWithTag("seek").performTextInput("switch PUMP")
        walk()
        tap("may-pump.switch_on")
        screen.onNodeWithText(engine.get { may("pump.switch_on") }.answer).assertIsDisplayed()
        back()
        screen.onNodeWithTag("may-pump.switch_on").assertExists()
    }

    @Test
    fun aRoutineUnderWayIsSharedWithEveryStepAndCaution() {
        chooseDemo()
        begin("ready_to_drive")
        tap("share-text")
        lateinit var sent: Intent
        activity.onActivity { sent = shadowOf(it).nextStartedActivity.getParcelableExtra(Intent.EXTRA_INTENT, Intent::class.java) ?: throw AssertionError("nothing is sent") }
        val text = sent.getStringExtra(Intent.EXTRA_TEXT).orEmpty()
        assertTrue(text.startsWith("Get ready to drive\n"))
        for (step in routine().steps) {
            for (words in step.cautions + step.why + step.wanted) assertTrue("$words is left out", words in text)
        }
        assertEquals("a text of a routine", "Get ready to drive", sent.getStringExtra(Intent.EXTRA_SUBJECT))
    }

    private fun isOnShow(page: CardPage) {
        screen.onNodeWithText(page.card.title).assertIsDisplayed()
        screen.onNodeWithTag("where").assertIsDisplayed()
        assertTrue("its cautions come first", screen.onAllNodesWithTag("section-caution").fetchSemanticsNodes().isNotEmpty())
    }

    private fun card(step: String): String? = routine().steps.first { it.id == step }.card
}
