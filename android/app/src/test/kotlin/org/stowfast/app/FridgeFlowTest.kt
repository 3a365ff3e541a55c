package org.stowfast.app

import androidx.compose.ui.test.assertIsDisplayed
import androidx.compose.ui.test.onNodeWithTag
import androidx.compose.ui.test.onNodeWithText
import androidx.compose.ui.test.performClick
import androidx.test.core.app.ApplicationProvider
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.stowfast.app.fridge.fullHour
import org.stowfast.app.fridge.shown
import org.stowfast.app.fridge.utcMs
import org.stowfast.app.ui.dayAndTime
import org.stowfast.engine.FridgePage
import org.stowfast.engine.LeaveRow
import java.time.Instant
import java.time.LocalDateTime
import java.time.ZoneId

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

    @Test
    fun anyDayAndTimeIsPickedByTheClockHereAndOutlivesTheActivity() {
        chooseDemo()
        choosing()
        val first = shown(fullHour(engine.get { fridge() }.leave().choicesUtcMs.first()))
        for (shift in listOf("day-on", "hour-on", "minutes-on", "minutes-on")) tap(shift)
        activity.recreate()
        screen.waitForIdle()
        draw("real-departure")
        screen.onNodeWithTag("leave-picked").performClick()
        screen.waitForIdle()
        says(first.plusDays(1).plusHours(1).plusMinutes(10).utcMs())
    }

    @Test
    fun aDepartureThatIsOverOrFarAheadIsRefusedOnItsOwnPage() {
        chooseDemo()
        choosing()
        tap("day-back")
        screen.onNodeWithTag("leave-picked").performClick()
        screen.waitForIdle()
        screen.onNodeWithText("still to come", substring = true).assertIsDisplayed()
        tap("day-on")
        screen.onNodeWithTag("problem").assertDoesNotExist()
        screen.onNodeWithTag("leave-picked").performClick()
        screen.waitForIdle()
        screen.onNodeWithText("You leave: ", substring = true).assertIsDisplayed()
    }

    @Test
    fun aFullHourIsOneOfTheClockHere() {
        val india = ZoneId.of("Asia/Kolkata")
        val offered = Instant.parse("2026-07-14T20:00:00Z").toEpochMilli()
        assertEquals(LocalDateTime.parse("2026-07-15T02:00"), shown(fullHour(offered, india), india))
        assertEquals(offered, fullHour(offered, ZoneId.of("Europe/Paris")))
        // The clocks are put on that night: it never shows 02:30.
        val night = LocalDateTime.parse("2026-03-29T02:30")
        assertEquals(Instant.parse("2026-03-29T01:30:00Z").toEpochMilli(), night.utcMs(ZoneId.of("Europe/Paris")))
    }

    /** With gas to run the fridge on, on the page of departures. */
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
