package org.stowfast.app

import androidx.compose.ui.test.SemanticsNodeInteraction
import androidx.compose.ui.test.assertIsDisplayed
import androidx.compose.ui.test.onNodeWithTag
import androidx.compose.ui.test.onNodeWithText
import androidx.compose.ui.test.onRoot
import androidx.compose.ui.test.performClick
import androidx.compose.ui.test.performTouchInput
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.stowfast.engine.VerdictKind

/** How often a thumb comes down for what is done most, from the first page on. A press that is held is one. */
@RunWith(RobolectricTestRunner::class)
class TapsTest : OnScreen() {
    private var taps = 0

    @Test
    fun aReadingTakesThreeTaps() {
        chooseDemo()
        val gauge = engine.get { gauges() }.first { it.choices.isNotEmpty() }
        val choice = gauge.choices.last()
        touch("reserves")
        touch("read-" + gauge.id)
        touch("reading-${gauge.id}-${choice.value}")
        assertTrue("it was recorded", engine.get { gauges() }.first { it.id == gauge.id }.ageText != gauge.ageText)
        assertEquals(3, taps)
    }

    @Test
    fun aFullLeavingTakesFifteenTapsToAClearListAndTwoMoreToTheRoad() {
        chooseDemo()
        engine.get { report("waste.level", "empty") }
        screen.waitForIdle()
        touch(screen.onNodeWithText("Get ready for…"))
        touch("target-ready_to_drive")
        touch(screen.onNodeWithText("Begin: ", substring = true))
        // What was told is said once more in a notice; it is no part of the leaving.
        understood()
        var left = 40
        while (!routine().finished && left-- > 0) {
            bench.pass(10_000)
            settle()
            val before = gesture()
            if (before.hold) hold() else touch(screen.onNodeWithTag("confirm"))
            understood()
            assertTrue("${before.steps} was not confirmed", routine().finished || gesture() != before)
        }
        assertEquals(VerdictKind.CLEAR, engine.get { nowPage() }.verdict)
        assertEquals(15, taps)
        touch("drive-off", inList = false)
        settle()
        hold()
        assertTrue(engine.get { nowPage() }.moving)
        assertEquals("driving off ends the routine", null, engine.get { routine() })
        assertEquals(17, taps)
    }

    @Test
    fun whyDrivingIsBlockedIsOneTapAwayForEachThingOnceAllAreOpen() {
        chooseDemo()
        screen.onNodeWithText("Not ready to drive", substring = true).assertIsDisplayed()
        val items = engine.get { nowPage() }.items
        assertTrue("${items.size}", items.size >= 10)
        touch("more-items")
        for (item in items) {
            val before = taps
            touch("item-" + item.variable)
            page(item.reason)
            screen.onNodeWithText(item.reason).assertExists()
            assertEquals(item.variable, before + 1, taps)
            back()
        }
        assertEquals(items.size + 1, taps)
    }

    private fun touch(tag: String, inList: Boolean = true) {
        if (inList) page(tag, tag = true)
        touch(screen.onNodeWithTag(tag))
    }

    private fun touch(what: SemanticsNodeInteraction) {
        what.performClick()
        taps++
        screen.waitForIdle()
    }

    /** Holds the button down until it takes that for meant. */
    private fun hold() {
        screen.mainClock.autoAdvance = false
        // The button may be gone before the thumb is lifted.
        val at = screen.onNodeWithTag("confirm").fetchSemanticsNode().boundsInRoot.center
        screen.onRoot().performTouchInput { down(at) }
        screen.mainClock.advanceTimeBy(HOLD_MS)
        screen.onRoot().performTouchInput { up() }
        screen.mainClock.autoAdvance = true
        taps++
        screen.waitForIdle()
    }

    private companion object {
        const val HOLD_MS = 1_500L
    }
}
