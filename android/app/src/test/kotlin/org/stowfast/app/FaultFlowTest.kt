package org.stowfast.app

import android.content.ClipboardManager
import android.content.Intent
import androidx.compose.ui.test.assertIsDisplayed
import androidx.compose.ui.test.assertTextEquals
import androidx.compose.ui.test.onNodeWithContentDescription
import androidx.compose.ui.test.onNodeWithTag
import androidx.compose.ui.test.onNodeWithText
import androidx.compose.ui.test.performClick
import androidx.compose.ui.test.performScrollTo
import androidx.lifecycle.Lifecycle
import org.junit.After
import org.junit.Assert.assertEquals
import org.junit.Assert.assertNotEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.Robolectric
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.Shadows.shadowOf
import org.robolectric.android.controller.ActivityController
import org.stowfast.engine.FaultPage
import org.stowfast.engine.FaultStage

/** Something does not work: from the page of what shows red to its cause, as a person looks for it. */
@RunWith(RobolectricTestRunner::class)
class FaultFlowTest : OnScreen() {
    private var next: ActivityController<MainActivity>? = null

    @After
    fun stopNext() {
        next?.close()
    }

    @Test
    fun aSearchGoesQuestionByQuestionToTheCauseAndWhatMendsIt() {
        open("pump_never_stops")
        draw("real-fault")
        var asked = 0
        while (page().fault.stage == FaultStage.ASKING) {
            val row = page().question ?: throw AssertionError("nothing is asked")
            screen.onNodeWithTag("asks").assertTextEquals(row.text).assertIsDisplayed()
            // All is well but for the drain of the boiler.
            answer(if (row.id == "drain") "open" else row.answers[row.answers.size - 2].id)
            asked++
        }
        assertTrue("$asked", asked in 1..8)
        val found = page().found ?: throw AssertionError("no cause")
        assertEquals("cause.drain_open", found.id)
        page("cause", tag = true)
        screen.onNodeWithTag("asks").assertTextEquals(found.text).assertIsDisplayed()
        draw("real-fault-found")
        tap("step-boiler.shut_drain")
        screen.onNodeWithTag("asked").assertIsDisplayed()
        back()
        tap("card-" + found.cards.first().id)
        back()
        answer("mended")
        assertEquals(FaultStage.MENDED, page().fault.stage)
        screen.onNodeWithTag("headline").assertIsDisplayed()
        back()
        page("fault-pump_never_stops", tag = true)
        screen.onNodeWithText("It works again").assertExists()
    }

    @Test
    fun anAnswerIsUndoneAndAnEarlierOneTakenBackToBeAskedAnew() {
        open("fridge_does_not_cool")
        val before = page()
        answer(before.question!!.answers.first().id)
        assertEquals(1, page().tried.size)
        tap("undo")
        assertEquals(before.copy(expectedText = page().expectedText), page())
        screen.onNodeWithTag("asks").assertTextEquals(before.question!!.text).assertIsDisplayed()
        engine.get { answerFault("fridge_does_not_cool", "weigh", "empty") }
        engine.get { answerFault("fridge_does_not_cool", "door", "gap") }
        screen.waitForIdle()
        page("contrary", tag = true)
        screen.onNodeWithText("contradict each other", substring = true).assertIsDisplayed()
        draw("real-fault-contrary")
        val first = page().tried.first().entry
        tap("tried-$first")
        tap("take-back-$first")
        assertEquals(emptyList<Any>(), page().contrary)
        assertEquals("cause.door", page().found?.id)
        tap("again")
        assertEquals("one tap is not enough", 1, page().tried.size)
        tap("again-go")
        assertEquals(0, page().fault.saidCount)
    }

    @Test
    fun aKilledProcessGoesOnAtTheSameQuestionEvenWithoutASavedState() {
        open("no_12v")
        answer("all", of = "all")
        val before = page()
        activity.moveToState(Lifecycle.State.CREATED)
        engine.close()
        engine = bench.install()
        next = Robolectric.buildActivity(MainActivity::class.java).also { it.setup() }
        screen.waitForIdle()
        assertEquals(before.question, page().question)
        screen.onNodeWithTag("asks").assertTextEquals(before.question!!.text).assertIsDisplayed()
        screen.onNodeWithContentDescription("Back").performClick()
        screen.waitForIdle()
        screen.onNodeWithTag("fault-no_12v").assertExists()
    }

    @Test
    fun whereNothingFitsTheAccountOfAllThatWasTriedIsSharedAndCopied() {
        open("pump_does_not_run")
        while (page().question != null) {
            val row = page().question!!
            answer(row.answers[row.answers.size - 2].id)
        }
        assertEquals(FaultStage.HELPER, page().fault.stage)
        screen.onNodeWithText("Ask a workshop.").assertIsDisplayed()
        draw("real-fault-helper")
        page("account", tag = true)
        screen.onNodeWithTag("share-account").performScrollTo().performClick()
        val chooser = shadowOf(RuntimeEnvironment.getApplication()).nextStartedActivity
        val sent = chooser.getParcelableExtra(Intent.EXTRA_INTENT, Intent::class.java)!!
        val account = sent.getStringExtra(Intent.EXTRA_TEXT).orEmpty()
        assertEquals(page().account, account)
        assertTrue(account, page().tried.size > 3 && page().tried.all { "- ${it.text}" in account })
        screen.onNodeWithTag("copy-account").performScrollTo().performClick()
        val board = RuntimeEnvironment.getApplication().getSystemService(ClipboardManager::class.java)
        assertEquals(account, board.primaryClip?.getItemAt(0)?.text.toString())
        // No step and no routine leads into what is for others to do.
        assertEquals(emptyList<Any>(), page().found?.steps)
        assertEquals(null, page().found?.routine)
    }

    @Test
    fun whileAnAlarmSoundsNothingIsAskedAndTheFirstPageEndsIt() {
        chooseDemo()
        engine.get { addDemo("c") }
        open("pump_never_stops", choose = false)
        answer("shut", of = "taps")
        val before = page()
        engine.get { report("co_alarm.sound", "sounding") }
        screen.waitForIdle()
        understood()
        screen.onNodeWithTag("bottom").assertDoesNotExist()
        screen.onNodeWithTag("check").assertDoesNotExist()
        screen.onNodeWithText("Everyone out", substring = true).assertIsDisplayed()
        draw("real-fault-emergency")
        screen.onNodeWithTag("to-life").performClick()
        walk()
        screen.onNodeWithText("Carbon monoxide").assertIsDisplayed()
        back()
        screen.onNodeWithTag("to-now").performClick()
        walk()
        screen.onNodeWithTag("emergency").assertIsDisplayed()
        engine.get { report("co_alarm.sound", "stopped") }
        engine.get { report("co_alarm.sound", "silent") }
        assertEquals(before.question, page().question)
    }

    @Test
    fun aThumbThatStillBouncesAnswersNothing() {
        open("fridge_does_not_cool")
        settle()
        val first = page().question!!
        screen.mainClock.autoAdvance = false
        screen.onNodeWithTag("answer-" + first.answers[first.answers.size - 2].id).performClick()
        repeat(3) { screen.mainClock.advanceTimeByFrame() }
        assertNotEquals(first, page().question)
        screen.onNodeWithTag("answer-cannot").performClick()
        screen.mainClock.advanceTimeByFrame()
        assertEquals(1, page().fault.saidCount)
        screen.mainClock.autoAdvance = true
        answer("cannot")
        assertEquals(2, page().fault.saidCount)
    }

    /** From the first page by way of what shows red. */
    private fun open(fault: String, choose: Boolean = true) {
        if (choose) chooseDemo()
        known = fault
        tap("red")
        tap("faults")
        tap("fault-$fault")
    }

    private var known = ""

    private fun page(): FaultPage = engine.get { fault(known) }

    private fun answer(id: String, of: String? = null) {
        if (of != null) {
            // Whatever comes first is passed over until this is asked.
            while (page().question?.id != of) answer("cannot")
        }
        settle()
        val before = page()
        bench.pass(10_000)
        screen.onNodeWithTag("answer-$id").performScrollTo().performClick()
        walk()
        understood()
        assertNotEquals(before.tried, page().tried)
    }
}
