package org.stowfast.app

import androidx.compose.ui.test.assertIsDisplayed
import androidx.compose.ui.test.hasTestTag
import androidx.compose.ui.test.onNodeWithTag
import androidx.compose.ui.test.onNodeWithText
import androidx.compose.ui.test.performClick
import androidx.compose.ui.test.performScrollToNode
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment

/** The first page with much in the way, on a phone held either way, laid up, and while an alarm sounds. */
@RunWith(RobolectricTestRunner::class)
class NowFlowTest : OnScreen() {
    @Test
    fun withTenThingsInTheWayEveryDoorIsInSightWithoutScrolling() {
        chooseDemo()
        val items = engine.get { nowPage() }.items
        assertTrue("${items.size}", items.size >= 10)
        for (door in DOORS) shown(door)
        for (item in items.take(2)) shown("item-" + item.variable)
        draw("real-now-many")
        screen.onNodeWithTag("page").performScrollToNode(hasTestTag("more-items"))
        screen.onNodeWithText("${items.size - 3} more in the way").assertIsDisplayed()
        unfold()
        for (item in items) screen.onNodeWithTag("page").performScrollToNode(hasTestTag("item-" + item.variable))
        screen.onNodeWithTag("item-" + items.last().variable).performClick()
        walk()
        back()
        screen.onNodeWithTag("item-" + items.last().variable).assertIsDisplayed()
        back()
        screen.onNodeWithTag("page").performScrollToNode(hasTestTag("verdict"))
        shown("red")
    }

    @Test
    fun withLettersOfDoubleSizeTheFirstDoorIsInSightToo() {
        RuntimeEnvironment.setFontScale(2f)
        activity.recreate()
        chooseDemo()
        draw("real-now-large")
        shown("red")
    }

    @Test
    fun onItsSideAThingInTheWayStandsWholeBesideTheDoors() {
        RuntimeEnvironment.setQualifiers("+w800dp-h360dp-land")
        activity.recreate()
        screen.waitForIdle()
        chooseDemo()
        draw("real-now-land")
        for (door in listOf("red", "fridge", "reserves", "questions", "cards", "where", "things", "record", "vehicles")) shown(door)
        val items = engine.get { nowPage() }.items
        shown("item-" + items.first().variable)
        for (item in items) screen.onNodeWithTag("page").performScrollToNode(hasTestTag("item-" + item.variable))
    }

    @Test
    fun whileAnAlarmSoundsTheButtonLeadsToWhatToDo() {
        chooseLarge()
        engine.get { report("co_alarm.sound", "sounding") }
        screen.waitForIdle()
        understood()
        screen.onNodeWithText("Get ready for…").assertDoesNotExist()
        draw("real-alarm")
        shown("emergency")
        screen.onNodeWithTag("next").performClick()
        walk()
        screen.onNodeWithTag("dial").assertIsDisplayed()
    }

    @Test
    fun laidUpThePageSaysSoAndLeadsBackIntoService() {
        chooseDemo()
        engine.get { report("pitch.purpose", "laid_up") }
        bench.pass(100 * DAY_MS)
        screen.waitForIdle()
        understood()
        val stands = checkNotNull(engine.get { nowPage() }.stands)
        screen.onNodeWithText(stands.headline).assertIsDisplayed()
        draw("real-laid-up")
        screen.onNodeWithTag("next").performClick()
        walk()
        screen.onNodeWithText("Begin: " + stands.targetTitle).performClick()
        walk()
        understood()
        assertEquals("back_in_service", routine().run.targetId)
        assertEquals(null, engine.get { nowPage() }.stands)
    }

    /** All of it is on the screen, above what stands under the thumb where it is in the same half. */
    private fun shown(tag: String) {
        val bottom = screen.onNodeWithTag("bottom").fetchSemanticsNode().boundsInRoot
        val node = screen.onNodeWithTag(tag).assertIsDisplayed().fetchSemanticsNode()
        val bounds = node.boundsInRoot
        assertEquals("$tag is whole", node.size.height.toFloat(), bounds.height, 1f)
        assertTrue("$tag at $bounds", bounds.bottom <= bottom.top || bounds.left >= bottom.right || bounds.right <= bottom.left)
    }

    private companion object {
        const val DAY_MS = 24 * 3_600_000L
        val DOORS = listOf("red", "fridge", "reserves", "questions", "cards", "where", "things", "record", "vehicles")
    }
}
