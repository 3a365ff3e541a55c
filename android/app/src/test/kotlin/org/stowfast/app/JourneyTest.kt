package org.stowfast.app

import androidx.compose.ui.test.assertIsDisplayed
import androidx.compose.ui.test.hasAnyAncestor
import androidx.compose.ui.test.hasTestTag
import androidx.compose.ui.test.hasText
import androidx.compose.ui.test.onNodeWithTag
import androidx.compose.ui.test.onNodeWithText
import androidx.compose.ui.test.performClick
import androidx.compose.ui.test.performTextInput
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.stowfast.engine.FridgeSource
import org.stowfast.engine.GestureKind
import org.stowfast.engine.Line
import org.stowfast.engine.StepRow
import org.stowfast.engine.VerdictKind
import org.stowfast.engine.stepIn

/** Whole journeys, with what goes wrong on them. */
@RunWith(RobolectricTestRunner::class)
class JourneyTest : OnScreen() {
    @Test
    fun anArrivalOnHookUpOutlivesARotationAndAFreshProcessAndIsFinished() {
        arrived()
        begin("pitched_hookup")
        confirm()
        val turned = routine()
        activity.recreate()
        screen.waitForIdle()
        shows(turned.steps.first())
        assertEquals(turned.stops, routine().stops)

        confirm()
        val before = routine()
        kill()
        screen.onNodeWithText("Continue: ", substring = true).performClick()
        screen.waitForIdle()
        assertEquals("a fresh process goes on where the other ended", before.stops, routine().stops)
        assertEquals(before.run.doneCount, routine().run.doneCount)
        shows(before.steps.first())

        finish()
        screen.onNodeWithTag("finished").assertIsDisplayed()
        assertEquals(VerdictKind.CLEAR, routine().verdict)
        screen.onNodeWithText("Close routine").performClick()
        screen.waitForIdle()
        assertEquals(FridgeSource.MAINS, engine.get { fridge() }?.source)
    }

    @Test
    fun everythingInTheWayLeadsToItsReasonAndItsStep() {
        chooseDemo()
        engine.get { openRun("ready_to_drive") }
        screen.waitForIdle()
        val items = engine.get { nowPage() }.items
        assertTrue("a blocked departure", items.size > 10)
        for (item in items) {
            tap("item-" + item.variable)
            page(item.reason)
            screen.onNodeWithText(item.reason).assertExists()
            val step = item.stepIn(routine().steps) ?: throw AssertionError("nothing sees to ${item.variable}")
            page("step", tag = true)
            screen.onNodeWithText(step.text).assertExists()
            screen.onNodeWithText("Go to this step").performClick()
            screen.waitForIdle()
            understood()
            shows(step)
            back()
        }
    }

    @Test
    fun aRoofLightThatIsStuckIsPlannedAroundAndTheListIsNeverClear() {
        chooseDemo()
        engine.get { report("roof_bed.leaf", "ajar") }
        openLeaving()
        confirmUntil { "roof_bed.shut" in it.steps }
        if (gesture().steps.size > 1) line("roof_bed.shut") else more("cannot")
        if (gesture().steps.size > 1) screen.onNodeWithTag("more-cannot").performClick()
        screen.onNodeWithTag("words").performTextInput("bent hinge")
        val record = if (gesture().steps.size > 1) "Mark this line" else "Record and plan around it"
        screen.onNodeWithText(record).performClick()
        screen.waitForIdle()
        if (routine().stuck.isEmpty()) confirm()
        understood()
        assertTrue(routine().stuck.single().text, "bent hinge" in routine().stuck.single().text)
        page("impossible", tag = true)
        draw("real-stuck")
        finish()
        assertEquals("the rest is done, and the road stays blocked", VerdictKind.BLOCKED, routine().verdict)
        val now = engine.get { nowPage() }
        assertEquals(VerdictKind.BLOCKED, now.verdict)
        assertEquals(listOf("roof_bed.leaf"), now.items.filter { it.knownBad }.map { it.variable })
    }

    @Test
    fun aReportOutOfOrderIsTakenWarnedOfAndPlannedFrom() {
        chooseDemo()
        openLeaving()
        back()
        tap("things")
        tap("thing-lead.vehicle_end")
        tap("say-lead.vehicle_end-out")
        screen.onNodeWithTag("notices").assertIsDisplayed()
        draw("real-out-of-order")
        understood()
        assertEquals(listOf("out"), engine.get { things() }.first { it.variable == "lead.vehicle_end" }.believed)
        assertTrue("the open connector is live: that comes first", routine().steps.first().id in listOf("post.switch_off", "lead.unplug", "post.switch.look"))
        back()
        screen.onNodeWithText("Continue: Get ready to drive").performClick()
        screen.waitForIdle()
        finish()
        assertEquals(VerdictKind.CLEAR, routine().verdict)
    }

    @Test
    fun aHookUpThatDiesOnTheWayIsSaidAndGoesOnWhenItIsBack() {
        arrived()
        begin("pitched_hookup")
        confirmUntil { "mains_switch.test_rcd" in it.steps }
        back()
        say("post.supply", "dead")
        screen.onNodeWithText("Continue: ", substring = true).performClick()
        screen.waitForIdle()
        page("impossible", tag = true)
        screen.onNodeWithTag("impossible").assertIsDisplayed()
        draw("real-hook-up-dead")
        assertFalse(routine().verdict == VerdictKind.CLEAR)
        assertTrue("no test of a device that nothing feeds", routine().steps.none { it.id == "mains_switch.test_rcd" })
        assertFalse(engine.get { fridge() }?.source == FridgeSource.MAINS)
        back()
        say("post.supply", "live")
        screen.onNodeWithText("Continue: ", substring = true).performClick()
        screen.waitForIdle()
        finish()
        assertEquals(VerdictKind.CLEAR, routine().verdict)
    }

    @Test
    fun theDriveCardStandsOnTheLastPageAndIsATapAwayOnTheRoad() {
        chooseDemo()
        leave()
        val card = engine.get { driveCard() }
        screen.onNodeWithTag("next").performClick()
        page("height", tag = true)
        screen.onNodeWithText(card.height.text).assertIsDisplayed()
        card.rows.forEach { page("measure-" + it.id, tag = true) }
        engine.get { driveOff() }
        kill()
        tap("drive-card")
        draw("real-drive-card")
        screen.onNodeWithText(card.height.text).assertIsDisplayed()
        card.rows.forEach { page("measure-" + it.id, tag = true) }
    }

    @Test
    fun theFridgeSaysWhatToDoAtThePumpAndLeadsToAllOfIt() {
        chooseDemo()
        tap("fridge")
        val row = engine.get { fridge() }?.ahead?.first { it.id == "fuel" } ?: throw AssertionError("nothing ahead")
        page("ahead-fuel", tag = true)
        row.lines.forEach { screen.onNode(hasText(it) and hasAnyAncestor(hasTestTag("ahead-fuel"))).assertExists() }
        draw("real-fridge-ahead")
        tap("target-of-fuel")
        val way = engine.get { preview(row.targetId.orEmpty()) }
        screen.onNodeWithText("Begin: ${way.run.targetTitle}").assertIsDisplayed()
        back()
        page("ahead-chill", tag = true)
        page("ahead-ferry", tag = true)
    }

    /** At a pitch with mains, nothing done there yet. */
    private fun arrived() {
        chooseDemo()
        leave()
        engine.get { driveOff() }
        kill()
        screen.onNodeWithText("Arrived").performClick()
        screen.waitForIdle()
        tap("arrive-pitch_16a")
        understood()
    }

    /** Everything for the road is done. */
    private fun leave() {
        engine.get { openRun("ready_to_drive") }
        while (!routine().finished) {
            val steps = gesture().steps
            bench.pass(10_000)
            engine.get { confirm(steps.map { Line(it, null) }) }
        }
        engine.get { closeRun() }
        screen.waitForIdle()
    }

    /** Carries the rest out, as the page asks for it. */
    private fun finish() {
        var left = 60
        while (routine().steps.isNotEmpty() && left-- > 0) {
            if (gesture().kind == GestureKind.WAIT) {
                bench.pass((routine().steps.first().waitS + 1) * 1_000L)
                screen.onNodeWithTag("look-again").performClick()
                screen.waitForIdle()
            } else {
                confirm()
            }
        }
        assertTrue("no end to it: ${routine().steps.map { it.id }}", routine().steps.isEmpty())
    }

    /** On the page of things, from the first one and back. */
    private fun say(variable: String, setting: String) {
        tap("things")
        tap("thing-$variable")
        tap("say-$variable-$setting")
        understood()
        back()
    }

    private fun shows(step: StepRow) {
        if (step.id in gesture().steps) {
            screen.onNodeWithTag("confirm").assertIsDisplayed()
            val tag = if (gesture().steps.size > 1) "current-list" else "current-step"
            page(tag, tag = true)
        } else {
            val gesture = routine().stops.flatMap { it.gestures }.first { step.id in it.steps }
            page("later-" + gesture.steps.joinToString("+"), tag = true)
        }
    }
}
