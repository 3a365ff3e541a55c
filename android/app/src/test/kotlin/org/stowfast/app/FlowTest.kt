package org.stowfast.app

import androidx.compose.ui.test.assertIsDisplayed
import androidx.compose.ui.test.onNodeWithContentDescription
import androidx.compose.ui.test.onNodeWithTag
import androidx.compose.ui.test.onNodeWithText
import androidx.compose.ui.test.performClick
import androidx.compose.ui.test.performTextInput
import androidx.test.core.app.ActivityScenario
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.stowfast.engine.GaugeUnit
import org.stowfast.engine.stepIn

/** The first page and what it leads to. */
@RunWith(RobolectricTestRunner::class)
class FlowTest : OnScreen() {
    @Test
    fun aThingInTheWayLeadsToItsReasonAndItsStep() {
        chooseDemo()
        val item = engine.get { nowPage() }.items.first { it.variable == "lead.post_end" }
        page("item-" + item.variable, tag = true)
        screen.onNodeWithTag("item-" + item.variable).performClick()
        draw("real-blocker")
        page("Not yet, because")
        page(item.reason)
        screen.onNodeWithText(item.reason).assertIsDisplayed()
        val way = engine.get { preview("ready_to_drive") }
        val step = item.stepIn(way.steps) ?: throw AssertionError("no step")
        assertEquals("lead.unplug", step.id)
        screen.onNodeWithText("Begin: Get ready to drive").performClick()
        screen.waitForIdle()
        assertEquals(way.steps.map { it.id }, routine().steps.map { it.id })
        understood()
        screen.onNodeWithTag("later-" + step.id).assertIsDisplayed()
        screen.onNodeWithText(step.why.first()).assertIsDisplayed()
        draw("real-sought")
        screen.onNodeWithTag("later-" + step.id).performClick()
        screen.onNodeWithText(step.why.first()).assertDoesNotExist()

        screen.onNodeWithContentDescription("Back").performClick()
        screen.waitForIdle()
        screen.onNodeWithTag("verdict").assertExists()
        page("item-" + item.variable, tag = true)
        screen.onNodeWithTag("item-" + item.variable).performClick()
        screen.onNodeWithText("Go to this step").performClick()
        screen.waitForIdle()
        screen.onNodeWithTag("later-" + step.id).assertIsDisplayed()
    }

    @Test
    fun anotherRoutineIsNotEndedUnsaid() {
        chooseDemo()
        engine.get { openRun("pitched_hookup") }
        val item = engine.get { nowPage() }.items.first()
        page("item-" + item.variable, tag = true)
        screen.onNodeWithTag("item-" + item.variable).performClick()
        screen.onNodeWithText("This ends the routine under way", substring = true).assertIsDisplayed()
        activity.onActivity { it.onBackPressedDispatcher.onBackPressed() }
        screen.waitForIdle()
        screen.onNodeWithTag("item-" + item.variable).assertIsDisplayed()
        assertEquals("pitched_hookup", routine().run.targetId)
    }

    @Test
    fun aFullPhoneIsSaidAndTriedAgain() {
        chooseDemo()
        activity.close()
        engine.close()
        bench.damageWithNoRoom()
        engine = bench.install()
        activity = ActivityScenario.launch(MainActivity::class.java)
        screen.onNodeWithText("storage is full", substring = true).assertIsDisplayed()
        draw("real-full")
        bench.makeRoom()
        screen.onNodeWithText("Try again").performClick()
        screen.waitForIdle()
        screen.onNodeWithTag("problem").assertDoesNotExist()
        screen.onNodeWithTag("verdict").assertIsDisplayed()
    }

    @Test
    fun theFridgeSaysWhatItRunsOnAndIsSetByHand() {
        chooseDemo()
        page("fridge", tag = true)
        screen.onNodeWithTag("fridge").performClick()
        screen.onNodeWithTag("source").assertIsDisplayed()
        draw("real-fridge")
        val choice = engine.get { fridge() }?.choices?.first { it.id == "gas" } ?: throw AssertionError("no gas")
        page("set-" + choice.id, tag = true)
        screen.onNodeWithTag("set-" + choice.id).performClick()
        screen.waitForIdle()
        assertEquals(true, engine.get { fridge() }?.manual)
        screen.onNodeWithContentDescription("Back").performClick()
        screen.onNodeWithTag("verdict").assertExists()
    }

    @Test
    fun aReadingTakesTwoTaps() {
        chooseDemo()
        tap("reserves")
        draw("real-gauges")
        val gauge = engine.get { gauges() }.first { it.choices.isNotEmpty() }
        tap("read-" + gauge.id)
        val choice = gauge.choices[gauge.choices.size / 2]
        page("reading-${gauge.id}-${choice.value}", tag = true)
        screen.onNodeWithTag("reading-${gauge.id}-${choice.value}").performClick()
        screen.waitForIdle()
        val after = engine.get { gauges() }.first { it.id == gauge.id }
        assertFalse("the reading changed nothing", after.ageText == gauge.ageText)
        screen.onNodeWithText("The reading gives", substring = true).assertExists()
        draw("real-reading")
    }

    @Test
    fun aTypedReadingThatDoesNotCountIsSaidToBeSo() {
        chooseDemo()
        tap("reserves")
        val gauge = engine.get { gauges() }.first { it.unit == GaugeUnit.VOLTS }
        tap("read-" + gauge.id)
        page("type-" + gauge.id, tag = true)
        screen.onNodeWithTag("type-" + gauge.id).performTextInput("12.6")
        page("Record")
        screen.onNodeWithText("Record").performClick()
        screen.waitForIdle()
        screen.onNodeWithText("does not count", substring = true).assertExists()
    }

    @Test
    fun theEmergencyPageIsOneTapAwayAndNeedsNoVehicle() {
        screen.onNodeWithContentDescription("Emergency").performClick()
        screen.onNodeWithText("Carbon monoxide").assertIsDisplayed()
        screen.onNodeWithContentDescription("Back").performClick()
        screen.onNodeWithText("Welcome aboard").assertIsDisplayed()
    }
}
