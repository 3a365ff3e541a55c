package org.stowfast.app

import android.os.Parcel
import android.view.View
import androidx.compose.ui.semantics.SemanticsActions
import androidx.compose.ui.test.assertIsDisplayed
import androidx.compose.ui.test.assertIsNotEnabled
import androidx.compose.ui.test.hasClickAction
import androidx.compose.ui.test.hasText
import androidx.compose.ui.test.onNodeWithContentDescription
import androidx.compose.ui.test.onNodeWithTag
import androidx.compose.ui.test.onNodeWithText
import androidx.compose.ui.test.performClick
import androidx.compose.ui.test.performTextInput
import androidx.compose.ui.test.performTouchInput
import androidx.lifecycle.SavedStateHandle
import kotlinx.coroutines.CoroutineScope
import kotlinx.coroutines.Dispatchers
import kotlinx.coroutines.launch
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.stowfast.app.routine.RoutineEvent
import org.stowfast.app.routine.RoutineViewModel
import org.stowfast.engine.Changes
import org.stowfast.engine.OddCannot
import org.stowfast.engine.OddSeen
import org.stowfast.engine.VerdictKind

/** A routine, from its first step to its last. */
@RunWith(RobolectricTestRunner::class)
class RoutineFlowTest : OnScreen() {
    @Test
    fun leaveWithTheProcessKilledHalfWay() {
        chooseDemo()
        screen.onNodeWithText("Not ready to drive", substring = true).assertIsDisplayed()
        draw("real-now")
        openLeaving()
        draw("real-routine-look")
        repeat(2) { confirm() }
        val before = routine()
        assertEquals(7, before.run.doneCount)

        kill()
        screen.onNodeWithText("Continue: Get ready to drive").performClick()
        assertEquals(before.stops, routine().stops)
        screen.onNodeWithText(before.steps.first().text).assertIsDisplayed()
        activity.onActivity { assertTrue("the screen must stay on", keepsOn(it.window.decorView)) }

        var left = 40
        while (!routine().finished && left-- > 0) {
            if (routine().steps.first().cautions.isNotEmpty()) draw("real-routine")
            confirm()
        }
        draw("real-finished")
        screen.onNodeWithTag("finished").assertIsDisplayed()
        screen.onNodeWithText("Close routine").performClick()
        screen.waitForIdle()
        assertEquals(VerdictKind.CLEAR, engine.get { nowPage() }.verdict)
        screen.onNodeWithText("The list is clear", substring = true).assertIsDisplayed()
    }

    @Test
    fun aHazardTakesMoreThanATap() {
        chooseDemo()
        openLeaving()
        confirmUntil { it.hold }
        val step = routine().steps.first().id
        settle()
        screen.onNodeWithTag("confirm").performClick()
        screen.onNodeWithText("Tap again to confirm").assertIsDisplayed()
        screen.mainClock.advanceTimeBy(5_000)
        assertEquals("one tap must not confirm", step, routine().steps.first().id)

        screen.mainClock.autoAdvance = false
        screen.onNodeWithTag("confirm").performTouchInput { down(center) }
        screen.mainClock.advanceTimeBy(300)
        screen.onNodeWithTag("confirm").performTouchInput { cancel() }
        screen.mainClock.advanceTimeBy(1_200)
        screen.mainClock.autoAdvance = true
        assertEquals("a short press must not confirm", step, routine().steps.first().id)

        screen.onNodeWithTag("confirm").performTouchInput { down(center) }
        screen.mainClock.advanceTimeBy(1_200)
        screen.onNodeWithTag("confirm").performTouchInput { up() }
        screen.waitForIdle()
        assertFalse("a long press confirms", step == routine().steps.first().id)
    }

    @Test
    fun aScreenReaderConfirmsAHazardByItsAction() {
        chooseDemo()
        openLeaving()
        confirmUntil { it.hold }
        val step = routine().steps.first().id
        val action = screen.onNodeWithTag("confirm").fetchSemanticsNode().config[SemanticsActions.CustomActions].single()
        assertEquals("Confirm this step", action.label)
        screen.runOnIdle { action.action() }
        screen.waitForIdle()
        assertFalse(step == routine().steps.first().id)
    }

    @Test
    fun undoTakesTheLastStepBack() {
        chooseDemo()
        openLeaving()
        val first = routine().steps.first().id
        confirm()
        screen.onNodeWithText("Undo").performClick()
        screen.waitForIdle()
        assertEquals(first, routine().steps.first().id)
        screen.onNodeWithTag("undo-bar").assertDoesNotExist()
    }

    @Test
    fun undoTakesAWholeListBack() {
        chooseDemo()
        openLeaving()
        confirmUntil { it.steps.size > 1 }
        val list = gesture()
        confirm()
        screen.onNodeWithText("Recorded: the whole list").assertIsDisplayed()
        val written = mutableListOf<Changes>()
        val follows = CoroutineScope(Dispatchers.Unconfined).launch { engine.changes.collect { written += it } }
        screen.onNodeWithText("Undo").performClick()
        screen.waitForIdle()
        follows.cancel()
        assertEquals("one command, and all of the list", listOf(list.steps.size), written.map { it.entries.size })
        assertEquals(list, gesture())
        assertEquals(1, routine().run.doneCount)
    }

    @Test
    fun aLookMayShowSomethingElse() {
        chooseDemo()
        openLeaving()
        confirmUntil { it.steps.size == 1 && routine().steps.first().choices.isNotEmpty() }
        val look = routine().steps.first()
        page("I see something else")
        screen.onNodeWithText("I see something else").performClick()
        screen.onNodeWithTag("choice-" + look.choices.last().id).performClick()
        screen.waitForIdle()
        assertFalse(look.id == routine().steps.first().id)
    }

    @Test
    fun whatCannotBeDoneIsRecordedAndFreedAgain() {
        chooseDemo()
        openLeaving()
        confirmUntil { it.steps.size == 1 && routine().steps.first().choices.isEmpty() }
        val step = routine().steps.first()
        more("cannot")
        screen.onNodeWithTag("words").performTextInput("frozen")
        screen.onNodeWithText("Record and plan around it").performClick()
        screen.waitForIdle()
        assertTrue(routine().stuck.single().text.contains("frozen"))
        assertFalse(step in routine().steps)
        understood()
        putBack(by = "It moves again")
        assertTrue(step.id in routine().steps.map { it.id })
    }

    @Test
    fun whatIsLeftAsItIsIsRecordedAndTheListIsNotClear() {
        chooseDemo()
        openLeaving()
        confirmUntil { "pump.switch_off" in it.steps }
        val step = routine().steps.first { it.id == "pump.switch_off" }
        line(step.id)
        screen.onNodeWithTag("more-leave").performClick()
        screen.onNodeWithText(step.text).assertIsDisplayed()
        screen.onNodeWithTag("words").performTextInput("in a hurry")
        screen.onNodeWithText("Record that it was left").performClick()
        screen.waitForIdle()
        assertTrue(routine().stuck.single().text.contains("in a hurry"))
        assertFalse(step.id in routine().steps.map { it.id })
        assertEquals(VerdictKind.BLOCKED, routine().verdict)
        understood()
        putBack(by = "Put back on the list")
        assertTrue(step.id in routine().steps.map { it.id })
    }

    @Test
    fun aNoteIsWrittenTakenBackAndReadInTheRecord() {
        chooseDemo()
        openLeaving()
        confirm()
        val step = routine().done.first()
        more("note")
        screen.onNodeWithText("Record this note").assertIsNotEnabled()
        screen.onNodeWithTag("words").performTextInput("ask about the hinge")
        screen.onNodeWithText("Record this note").performClick()
        screen.waitForIdle()
        screen.onNodeWithText("Recorded: Note (ask about the hinge)").assertIsDisplayed()
        screen.onNodeWithText("Undo").performClick()
        screen.waitForIdle()
        screen.onNodeWithText("Recorded: " + step.text.substringBefore(" · ")).assertIsDisplayed()
        screen.onNodeWithContentDescription("Back").performClick()
        page("record", tag = true)
        screen.onNodeWithTag("record").performClick()
        screen.onNodeWithText("Note (ask about the hinge)").assertIsDisplayed()
        screen.onNodeWithText("taken back", substring = true).assertIsDisplayed()
        draw("real-record")
        screen.onNodeWithText("Write a note").performClick()
        screen.onNodeWithTag("words").performTextInput("buy a hinge")
        screen.onNodeWithText("Record this note").performClick()
        screen.onNodeWithText("Note (buy a hinge)").assertIsDisplayed()
    }

    @Test
    fun leavingWithAllWellIsClearInTwelveGestures() {
        chooseDemo()
        engine.get { report("waste.level", "empty") }
        openLeaving()
        draw("real-gestures")
        assertEquals(12, routine().gestureCount)
        screen.onNodeWithText("12 more to confirm", substring = true).assertIsDisplayed()
        repeat(12) {
            if (it == 1) draw("real-list")
            confirm()
        }
        screen.onNodeWithTag("finished").assertIsDisplayed()
        assertEquals(VerdictKind.CLEAR, engine.get { nowPage() }.verdict)
    }

    @Test
    fun anOddLineIsMarkedKeptOverARotationAndPlansAnew() {
        chooseDemo()
        openLeaving()
        confirmUntil { "window_bed.leaf.look" in it.steps }
        val list = gesture()
        assertFalse("window_bed.shut" in routine().steps.map { it.id })
        line("window_bed.leaf.look")
        draw("real-line")
        screen.onNodeWithTag("choice-ajar").performClick()
        line("drawers.latch")
        screen.onNodeWithTag("more-cannot").performClick()
        screen.onNodeWithTag("words").performTextInput("catch broken")
        screen.onNodeWithText("Mark this line").performClick()
        screen.onNodeWithText("It cannot be done: catch broken").assertExists()

        activity.recreate()
        screen.waitForIdle()
        screen.onNodeWithText("Otherwise: Ajar").assertExists()
        screen.onNodeWithContentDescription("Emergency").performClick()
        screen.onNodeWithContentDescription("Back").performClick()
        screen.onNodeWithText("It cannot be done: catch broken").assertExists()
        screen.onNodeWithText("The rest as it says").assertExists()
        draw("real-odd")
        assertEquals("nothing is recorded before it is confirmed", list, gesture())

        confirm()
        val after = routine()
        assertTrue("window_bed.shut" in after.steps.map { it.id })
        assertTrue(after.stuck.single().text.contains("catch broken"))
        draw("real-odd-after")
        assertFalse(after.steps.any { it.id in list.steps })

        screen.onNodeWithText("Undo").performClick()
        screen.waitForIdle()
        assertEquals("odd lines are taken back with the rest", list, gesture())
        assertEquals(emptyList<String>(), routine().stuck.map { it.text })
    }

    @Test
    fun marksOutliveTheProcess() {
        val kept = SavedStateHandle()
        val marks = mapOf("a.look" to OddSeen("ajar"), "b.shut" to OddCannot("catch broken"))
        RoutineViewModel(engine, kept).let { model -> marks.forEach { (step, odd) -> model.onEvent(RoutineEvent.Mark(step, odd)) } }
        val parcel = Parcel.obtain()
        parcel.writeBundle(kept.savedStateProvider().saveState())
        parcel.setDataPosition(0)
        val found = SavedStateHandle.createHandle(parcel.readBundle(javaClass.classLoader), null)
        assertEquals(marks, RoutineViewModel(engine, found).state.value.odd)
        parcel.recycle()
    }

    @Test
    fun aMarkIsTakenAwayAgain() {
        chooseDemo()
        openLeaving()
        confirmUntil { "window_bed.leaf.look" in it.steps }
        line("window_bed.leaf.look")
        screen.onNodeWithTag("choice-open").performClick()
        screen.onNodeWithText("Otherwise: Open").assertExists()
        line("window_bed.leaf.look")
        screen.onNodeWithText("It is as it says after all").performClick()
        screen.onNodeWithText("Otherwise: Open").assertDoesNotExist()
        screen.onNodeWithText("All as it says").assertIsDisplayed()
    }

    @Test
    fun theEndOfAPartIsAnnounced() {
        chooseDemo()
        begin("laid_up_winter")
        assertTrue(routine().stops.any { it.partEnd != null })
        var left = 60
        while (routine().partEnd == null && left-- > 0) confirm()
        screen.onNodeWithTag("part-end").assertIsDisplayed()
        draw("real-part-end")
    }

    @Test
    fun whyIsATapAway() {
        chooseDemo()
        openLeaving()
        val why = routine().steps.first().why.first()
        screen.onNodeWithTag("why").assertDoesNotExist()
        page("Why?")
        screen.onNodeWithText("Why?").performClick()
        page("why", tag = true)
        screen.onNodeWithText(why).assertIsDisplayed()
    }

    @Test
    fun aPauseIsKeptAndTakenUpAgain() {
        chooseDemo()
        openLeaving()
        confirm()
        more("pause")
        screen.onNodeWithText("Paused").assertIsDisplayed()
        kill()
        screen.onNodeWithText("Continue: Get ready to drive").performClick()
        screen.waitForIdle()
        screen.onNodeWithText("After a break", substring = true).assertIsDisplayed()
    }

    @Test
    fun anEndIsAskedForOnceMore() {
        chooseDemo()
        openLeaving()
        more("end")
        screen.onNodeWithText("End it here?", substring = true).assertIsDisplayed()
        assertFalse(routine().finished)
        screen.onNode(hasText("End routine") and hasClickAction()).performClick()
        screen.waitForIdle()
        assertEquals(null, engine.get { routine() })
        screen.onNodeWithTag("verdict").assertIsDisplayed()
    }

    private fun keepsOn(view: View): Boolean =
        view.keepScreenOn || (view as? android.view.ViewGroup)?.let { group ->
            (0 until group.childCount).any { keepsOn(group.getChildAt(it)) }
        } == true
}
