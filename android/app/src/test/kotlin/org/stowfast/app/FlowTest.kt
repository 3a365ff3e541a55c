package org.stowfast.app

import android.view.View
import androidx.compose.ui.semantics.SemanticsActions
import androidx.compose.ui.test.assertIsDisplayed
import androidx.compose.ui.test.hasTestTag
import androidx.compose.ui.test.hasText
import androidx.compose.ui.test.junit4.createEmptyComposeRule
import androidx.compose.ui.test.onAllNodesWithTag
import androidx.compose.ui.test.onFirst
import androidx.compose.ui.test.onNodeWithContentDescription
import androidx.compose.ui.test.onNodeWithTag
import androidx.compose.ui.test.onNodeWithText
import androidx.compose.ui.test.performClick
import androidx.compose.ui.test.performScrollToNode
import androidx.compose.ui.test.performTextInput
import androidx.compose.ui.test.performTouchInput
import androidx.test.core.app.ActivityScenario
import org.junit.After
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertTrue
import org.junit.Before
import org.junit.Rule
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.annotation.Config
import org.robolectric.annotation.GraphicsMode
import org.stowfast.engine.RoutinePage
import org.stowfast.engine.VehicleEngine
import org.stowfast.engine.VerdictKind

/** The app as a person uses it, with the real library and a real file. */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
@Config(sdk = [34], qualifiers = "en-rGB-w411dp-h891dp-xhdpi")
class FlowTest {
    @get:Rule
    val screen = createEmptyComposeRule()

    private val bench = Bench()
    private lateinit var engine: VehicleEngine
    private lateinit var activity: ActivityScenario<MainActivity>

    @Before
    fun start() {
        engine = bench.install()
        activity = ActivityScenario.launch(MainActivity::class.java)
    }

    @After
    fun stop() {
        activity.close()
        engine.close()
    }

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
        page("Cannot")
        screen.onNodeWithText("Cannot").performClick()
        screen.onNodeWithText("What is in the way?", substring = true).performTextInput("frozen")
        screen.onNodeWithText("Record and plan around it").performClick()
        screen.waitForIdle()
        assertEquals(1, routine().stuck.size)
        understood()
        page("Can be done now")
        screen.onNodeWithText("Can be done now").performClick()
        screen.waitForIdle()
        assertEquals(0, routine().stuck.size)
    }

    @Test
    fun aPauseIsKeptAndTakenUpAgain() {
        chooseDemo()
        openLeaving()
        confirm()
        page("Pause")
        screen.onNodeWithText("Pause").performClick()
        screen.waitForIdle()
        screen.onNodeWithText("Paused").assertIsDisplayed()
        kill()
        screen.onNodeWithText("Resume: Ready to drive").performClick()
        screen.waitForIdle()
        screen.onNodeWithText("After a break", substring = true).assertIsDisplayed()
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
        page("gauges", tag = true)
        screen.onNodeWithTag("gauges").performClick()
        draw("real-gauges")
        val gauge = engine.get { gauges() }.first { it.choices.isNotEmpty() }
        page("enter-" + gauge.id, tag = true)
        screen.onNodeWithTag("enter-" + gauge.id).performClick()
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
        page("gauges", tag = true)
        screen.onNodeWithTag("gauges").performClick()
        val gauge = engine.get { gauges() }.first { it.choices.isEmpty() }
        page("enter-" + gauge.id, tag = true)
        screen.onNodeWithTag("enter-" + gauge.id).performClick()
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

    private fun chooseDemo() {
        screen.onNodeWithText("Welcome aboard").assertIsDisplayed()
        page("demo", tag = true)
        screen.onAllNodesWithTag("demo").onFirst().performClick()
        screen.waitForIdle()
        screen.onNodeWithTag("verdict").assertIsDisplayed()
    }

    private fun openLeaving() {
        screen.onNodeWithText("Get ready for…").performClick()
        screen.onNodeWithTag("target-ready_to_drive").performClick()
        screen.waitForIdle()
        understood()
    }

    /** Confirms the current step as it asks for. */
    private fun confirm() {
        val step = routine().steps.first()
        bench.pass(10_000)
        settle()
        screen.onNodeWithTag("confirm").performClick()
        if (step.hazard) screen.onNodeWithTag("confirm").performClick()
        screen.waitForIdle()
        understood()
        assertFalse("${step.id} was not confirmed", routine().steps.firstOrNull()?.id == step.id)
    }

    /** Lets the button take note that its step is new. */
    private fun settle() {
        screen.mainClock.advanceTimeBy(500)
        screen.waitForIdle()
    }

    private fun understood() {
        if (screen.onAllNodesWithTag("notices").fetchSemanticsNodes().isNotEmpty()) {
            screen.onNodeWithText("Understood").performClick()
            screen.waitForIdle()
        }
    }

    private fun page(what: String, tag: Boolean = false) {
        screen.onNodeWithTag("page").performScrollToNode(if (tag) hasTestTag(what) else hasText(what))
        screen.waitForIdle()
    }

    private fun routine(): RoutinePage = engine.get { routine() } ?: throw AssertionError("no routine is under way")

    /** Ends the activity and the engine, and starts both anew on the same file. */
    private fun kill() {
        activity.close()
        engine.close()
        engine = bench.install()
        activity = ActivityScenario.launch(MainActivity::class.java)
        screen.waitForIdle()
    }

    private fun draw(name: String) {
        screen.waitForIdle()
        activity.onActivity { picture(name, it.window.decorView) }
    }

    private fun keepsOn(view: View): Boolean =
        view.keepScreenOn || (view as? android.view.ViewGroup)?.let { group ->
            (0 until group.childCount).any { keepsOn(group.getChildAt(it)) }
        } == true
}
