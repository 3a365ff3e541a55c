package org.stowfast.app

import androidx.compose.ui.test.assertIsDisplayed
import androidx.compose.ui.test.onNodeWithTag
import androidx.compose.ui.test.onNodeWithText
import androidx.test.core.app.ApplicationProvider
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.stowfast.app.ui.dayAndTime
import org.stowfast.engine.FridgePage
import org.stowfast.engine.LeaveRow

/** By when the fridge is to be switched on for a departure, asked of the real engine. */
@RunWith(RobolectricTestRunner::class)
class FridgeFlowTest : OnScreen() {
    private val app: StowfastApp get() = ApplicationProvider.getApplicationContext()

    @Test
    fun aDepartureSaysByWhenToSwitchItOn() {
        chooseDemo()
        choosing()
        val offered = engine.get { fridge() }.leave().choicesUtcMs
        val second = offered[2]
        tap("leave-$second")
        says(second)
        draw("real-fridge-leave")

        val later = checkNotNull(engine.get { fridgeFor(second) }.leave().laterUtcMs)
        tap("leave-later")
        says(later)
    }

    @Test
    fun whatIsTooLateIsSaidAndADepartureThatIsOverIsForgotten() {
        chooseDemo()
        choosing()
        val first = engine.get { fridge() }.leave().choicesUtcMs.first()
        tap("leave-$first")
        val late = engine.get { fridgeFor(first) }.leave()
        assertTrue("${late.startText}", late.startText.orEmpty().startsWith("Begin now."))
        screen.onNodeWithText(late.startText.orEmpty()).assertExists()
        back()
        bench.pass(first - bench.nowMs)
        tap("fridge")
        page("leave", tag = true)
        screen.onNodeWithText("You leave", substring = true).assertDoesNotExist()
        screen.onNodeWithTag("problem").assertDoesNotExist()
    }

    /** On the fridge's page, with gas to run it on and the departures open. */
    private fun choosing() {
        for (fact in listOf("fridge.selector" to "off", "lead.post_end" to "out", "gas_left.valve" to "open", "pitch.flame" to "allowed")) {
            engine.get { report(fact.first, fact.second) }
        }
        screen.waitForIdle()
        understood()
        tap("fridge")
        tap("leave")
    }

    private fun says(leaveUtcMs: Long) {
        val row = engine.get { fridgeFor(leaveUtcMs) }.leave()
        val start = checkNotNull(row.startUtcMs)
        assertTrue("$row", start <= leaveUtcMs)
        screen.onNodeWithText("You leave: " + app.dayAndTime(leaveUtcMs)).assertIsDisplayed()
        screen.onNodeWithText("Switch it on by " + app.dayAndTime(start)).assertIsDisplayed()
        assertEquals(leaveUtcMs, row.chosenUtcMs)
    }

    private fun FridgePage?.leave(): LeaveRow = checkNotNull(this?.ahead?.first { it.id == "chill" }?.leave)
}
