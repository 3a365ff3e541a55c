package org.stowfast.app

import androidx.compose.ui.test.assertIsDisplayed
import androidx.compose.ui.test.assertIsSelected
import androidx.compose.ui.test.hasTestTag
import androidx.compose.ui.test.onAllNodesWithTag
import androidx.compose.ui.test.onNodeWithTag
import androidx.compose.ui.test.onNodeWithText
import androidx.compose.ui.test.performClick
import androidx.compose.ui.test.performTextInput
import androidx.compose.ui.test.performTextReplacement
import org.junit.Assert.assertEquals
import org.junit.Assert.assertNotEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.stowfast.engine.Holds
import org.stowfast.engine.StayRow

/** What people say that they use, and what comes of it for some nights without services. */
@RunWith(RobolectricTestRunner::class)
class StayFlowTest : OnScreen() {
    @Test
    fun whatPeopleUseTellsWhatToFillBeforeAndAReadingChangesIt() {
        open()
        assertEquals("nothing is known yet", null, row("fresh").holds)
        tap("figures")
        for ((figure, value) in listOf("people" to "2", "showers_a_day" to "2", "shower_l" to "15")) tell(figure, value)
        page("entry-shower_l", tag = true)
        sees("15 litres")
        draw("real-figures")
        back()
        val before = row("fresh")
        assertTrue("${before.holds}", before.holds == Holds.NO || before.holds == Holds.PERHAPS)
        page("before-fresh", tag = true)
        sees(before.doText.orEmpty())
        draw("real-stay")
        engine.get { report("pitch.ground", "level") }
        tap("read-fresh")
        type("fresh", "20")
        record()
        understood()
        back()
        val after = row("fresh")
        assertEquals(Holds.NO, after.holds)
        assertNotEquals(before.leftText, after.leftText)
        page("before-fresh", tag = true)
        sees(after.doText.orEmpty())
        draw("real-stay-read")
    }

    @Test
    fun otherNightsAreAnotherAnswer() {
        open()
        screen.onNodeWithTag("nights-3").assertIsSelected()
        sees("3 nights without services")
        tap("nights-1")
        screen.onNodeWithTag("nights-1").assertIsSelected()
        sees(engine.get { stay(1) }.title)
        back()
        tap("stay")
        screen.onNodeWithTag("nights-1").assertIsSelected()
    }

    @Test
    fun aNumberThatDoesNotFitIsRefusedWithWhatWasExpected() {
        open()
        tap("figures")
        val before = engine.get { log(1) }
        tap("entry-people")
        sees("1 to 12, in steps of 1")
        type("people", "two")
        record()
        assertEquals("no number", 0, screen.onAllNodesWithTag("problem").fetchSemanticsNodes().size)
        screen.onNodeWithTag("type-people").performTextReplacement("13")
        record()
        page("problem", tag = true)
        sees("1 to 12, in steps of 1.")
        draw("real-figures-refused")
        assertEquals("nothing was written", before, engine.get { log(1) })
        screen.onNodeWithText("Understood").performClick()
        screen.onNodeWithTag("type-people").performTextReplacement("3")
        record()
        assertEquals(3.0, people())
    }

    @Test
    fun whatIsNotKnownAnyMoreIsTakenBackInTwoTaps() {
        open()
        tap("figures")
        assertTrue("what is not known cannot be forgotten", lacks("forget-people"))
        tell("people", "2")
        tap("entry-people")
        tap("forget-people")
        assertEquals(null, people())
        assertEquals(null, row("fresh").holds)
    }

    private fun open() {
        chooseLarge()
        tap("reserves")
        tap("stay")
    }

    private fun tell(figure: String, value: String) {
        tap("entry-$figure")
        type(figure, value)
        record()
        understood()
        assertTrue("$figure is shut again", lacks("type-$figure"))
    }

    private fun type(id: String, text: String) {
        page("type-$id", tag = true)
        screen.onNodeWithTag("type-$id").performTextInput(text)
    }

    private fun record() {
        page("Record")
        screen.onNodeWithText("Record").performClick()
        walk()
    }

    private fun lacks(tag: String): Boolean = screen.onAllNodes(hasTestTag(tag)).fetchSemanticsNodes().isEmpty()

    private fun people(): Double? = engine.get { figures() }.single { it.id == "people" }.value

    private fun row(gauge: String): StayRow = engine.get { stay(3) }.rows.single { it.id == gauge }

    private fun sees(text: String) = screen.onNodeWithText(text, substring = true).assertIsDisplayed()
}
