package org.stowfast.app

import androidx.compose.ui.test.assertIsDisplayed
import androidx.compose.ui.test.onAllNodesWithTag
import androidx.compose.ui.test.onNodeWithContentDescription
import androidx.compose.ui.test.onNodeWithTag
import androidx.compose.ui.test.onNodeWithText
import androidx.compose.ui.test.performClick
import org.junit.Assert.assertEquals
import org.junit.Assert.assertNotEquals
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.stowfast.engine.Shown

/** What shows red: from the first page to what it means, what mends it, and what is said of it. */
@RunWith(RobolectricTestRunner::class)
class RedFlowTest : OnScreen() {
    @Test
    fun anAlertLeadsToTheWayThatMendsIt() {
        open("waste.full")
        val routine = engine.get { alert("waste.full") }.meanings.first().routine ?: throw AssertionError("no routine")
        tap("routine-" + routine.id)
        screen.onNodeWithTag("summary").assertIsDisplayed()
        draw("real-alert-way")
        screen.onNodeWithText("Begin: ", substring = true).performClick()
        screen.waitForIdle()
        assertEquals(engine.get { preview(routine.id) }.run.targetTitle, routine().run.targetTitle)
    }

    @Test
    fun aReportTakesTwoTapsAndChangesWhatIsKnown() {
        open("waste.full")
        assertNotEquals(Shown.YES, shown("waste.full"))
        val before = engine.get { log(1) }
        tap("report")
        assertEquals("one tap is not enough", before, engine.get { log(1) })
        tap("record-report")
        assertEquals(Shown.YES, shown("waste.full"))
        // The page goes to its top by itself: what was said may mean something else.
        screen.onNodeWithText("Shows now").assertIsDisplayed()
        draw("real-alert-shows")
        back()
        assertEquals("waste.full", engine.get { alerts() }.first().id)
        page("alert-waste.full", tag = true)
        screen.onNodeWithText("Shows now", substring = true).assertIsDisplayed()
        draw("real-red")
    }

    @Test
    fun aLampThatIsOutAgainIsSaidToBeSo() {
        open("boiler.locked_out")
        tap("report")
        tap("record-report")
        assertEquals(Shown.YES, shown("boiler.locked_out"))
        val out = engine.get { alert("boiler.locked_out") }.cleared ?: throw AssertionError("it cannot be cleared")
        page(out.text)
        val before = engine.get { log(1) }
        tap("cleared")
        assertEquals("one tap is not enough", before, engine.get { log(1) })
        tap("record-cleared")
        assertEquals(Shown.NO, shown("boiler.locked_out"))
        screen.onNodeWithText("Does not show, as far as is known").assertIsDisplayed()
        draw("real-alert-cleared")
        screen.onNodeWithTag("cleared").assertDoesNotExist()
    }

    @Test
    fun whatWasFoundIsRecordedFromThePage() {
        open("pump.never_stops")
        val find = engine.get { alert("pump.never_stops") }.meanings.first().finds.first { it.variable.startsWith("tap_galley") }
        draw("real-alert-finds")
        tap("find-${find.variable}-${find.setting}")
        tap("record-find-${find.variable}-${find.setting}")
        assertEquals(listOf(find.setting), engine.get { things() }.first { it.variable == find.variable }.believed)
    }

    @Test
    fun aStepLeadsOnOnlyWhereTheRoutineHasItAndEmergencyIsOneTapAway() {
        chooseDemo()
        begin("ready_to_drive")
        val planned = routine().steps.map { it.id }.toSet()
        back()
        tap("red")
        val (alert, step) = engine.get { alerts() }.firstNotNullOf { row ->
            engine.get { alert(row.id) }.meanings.first().steps.firstOrNull { it.id in planned }?.let { row.id to it.id }
        }
        tap("alert-$alert")
        tap("step-$step")
        assertEquals("the routine is on show", 1, screen.onAllNodesWithTag("confirm").fetchSemanticsNodes().size)
        back()
        screen.onNodeWithTag("sign").assertIsDisplayed()
        screen.onNodeWithContentDescription("Emergency").performClick()
        screen.onNodeWithText("Carbon monoxide").assertIsDisplayed()
    }

    private fun open(alert: String) {
        chooseDemo()
        tap("red")
        tap("alert-$alert")
    }

    private fun shown(alert: String): Shown = engine.get { alert(alert) }.alert.shown
}
