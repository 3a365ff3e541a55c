package org.stowfast.app

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
import org.junit.After
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
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
        repeat(4) { confirm() }
        val before = routine()
        assertEquals(4, before.run.doneCount)

        kill()
        screen.onNodeWithText("Continue: Ready to drive").performClick()
        assertEquals(before.steps.first().id, routine().steps.first().id)
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
        while (!routine().steps.first().hazard) confirm()
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
        while (!routine().steps.first().hazard) confirm()
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
    fun aLookMayShowSomethingElse() {
        chooseDemo()
        openLeaving()
        while (routine().steps.first().choices.isEmpty()) confirm()
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
        while (routine().steps.first().choices.isNotEmpty()) confirm()
        val step = routine().steps.first()
        more("cannot")
        screen.onNodeWithTag("words").performTextInput("frozen")
        screen.onNodeWithText("Record and plan around it").performClick()
        screen.waitForIdle()
        assertTrue(routine().stuck.single().text.contains("frozen"))
        assertFalse(step in routine().steps)
        understood()
        putBack()
        assertTrue(step.id in routine().steps.map { it.id })
    }

    @Test
    fun whatIsLeftAsItIsIsRecordedAndTheListIsNotClear() {
        chooseDemo()
        openLeaving()
        while (routine().steps.first().id != "pump.switch_off") confirm()
        val step = routine().steps.first()
        more("leave")
        screen.onNodeWithText(step.text).assertIsDisplayed()
        screen.onNodeWithTag("words").performTextInput("in a hurry")
        screen.onNodeWithText("Record that it was left").performClick()
        screen.waitForIdle()
        assertTrue(routine().stuck.single().text.contains("in a hurry"))
        assertFalse(step.id in routine().steps.map { it.id })
        assertEquals(VerdictKind.BLOCKED, routine().verdict)
        understood()
        putBack()
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
        screen.onNodeWithText("Recorded: " + step.text).assertIsDisplayed()
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
        screen.onNodeWithText("Resume: Ready to drive").performClick()
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
