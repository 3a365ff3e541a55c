package org.stowfast.app

import android.os.Bundle
import androidx.compose.ui.test.assertIsDisplayed
import androidx.compose.ui.test.hasTestTag
import androidx.compose.ui.test.junit4.createEmptyComposeRule
import androidx.compose.ui.test.onNodeWithTag
import androidx.compose.ui.test.onNodeWithText
import androidx.compose.ui.test.performClick
import androidx.compose.ui.test.performScrollToNode
import androidx.compose.ui.test.performTextInput
import androidx.core.graphics.Insets
import androidx.core.view.ViewCompat
import androidx.core.view.WindowInsetsCompat
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Before
import org.junit.Rule
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.Robolectric
import org.robolectric.RobolectricTestRunner
import org.robolectric.android.controller.ActivityController
import org.robolectric.annotation.Config

/** What the system does to a page: it turns it, ends its process, and covers its edges. */
@RunWith(RobolectricTestRunner::class)
@Config(sdk = [34], qualifiers = "en-rGB-w411dp-h891dp-mdpi")
class RestoreTest {
    @get:Rule
    val screen = createEmptyComposeRule()

    private val bench = Bench()
    private lateinit var title: String
    private lateinit var activity: ActivityController<MainActivity>

    @Before
    fun start() {
        activity = open(Bundle(), first = true)
    }

    @Test
    fun aFreshProcessShowsThePageWhereItWasScrolledTo() {
        screen.onNodeWithTag("page").performScrollToNode(hasTestTag("drive-anyway"))
        again()
        screen.onNodeWithTag("drive-anyway").assertIsDisplayed()
    }

    @Test
    fun aFreshProcessHasAllThatIsInTheWayOpenWhereItWasAndBackFoldsItAway() {
        go("more-items")
        screen.onNodeWithTag("page").performScrollToNode(hasTestTag("more-items"))
        again()
        screen.onNodeWithText("Show only the first").assertIsDisplayed()
        back()
        screen.onNodeWithText("Show only the first").assertDoesNotExist()
        screen.onNodeWithTag("page").performScrollToNode(hasTestTag("more-items"))
        screen.onNodeWithText("more in the way", substring = true).assertIsDisplayed()
        assertEquals("the first page is left to the system", false, activity.get().onBackPressedDispatcher.hasEnabledCallbacks())
    }

    @Test
    fun aFreshProcessHasTheWordsThatWereTyped() {
        writeNote()
        screen.onNodeWithTag("words").performTextInput("The hatch sticks")
        again()
        screen.onNodeWithText("The hatch sticks").assertIsDisplayed()
    }

    @Test
    fun aFreshProcessHasWhatWasAskedAndItsAnswer() {
        go("cards")
        screen.onNodeWithTag("seek").performTextInput("pump runs on")
        again()
        screen.onNodeWithText("pump runs on").assertIsDisplayed()
        screen.onNodeWithTag("hit-pump_never_stops").assertIsDisplayed()
    }

    @Test
    fun aFreshProcessHasTheReadingThatWasBegun() {
        go("reserves")
        go("read-battery")
        screen.onNodeWithTag("type-battery").performTextInput("12.6")
        again()
        screen.onNodeWithText("12.6").assertIsDisplayed()
        go("enter-fresh")
        again()
        screen.onNodeWithTag("type-battery").assertDoesNotExist()
        screen.onNodeWithTag("page").performScrollToNode(hasTestTag("reading-fresh-4.0"))
    }

    @Test
    fun backLeavesOnePageAtATime() {
        writeNote()
        back()
        screen.onNodeWithTag("words").assertDoesNotExist()
        screen.onNodeWithText("What was recorded").assertIsDisplayed()
        back()
        screen.onNodeWithTag("bottom").assertIsDisplayed()
        assertEquals("the first page is left to the system", false, activity.get().onBackPressedDispatcher.hasEnabledCallbacks())
    }

    @Test
    fun nothingUnderTheThumbIsHiddenByBarsOrKeyboard() {
        cover(Insets.of(30, 40, 10, 24), keyboard = 0)
        screen.onNodeWithTag("bottom").fetchSemanticsNode().boundsInWindow.let { next ->
            assertTrue("$next", next.left >= 30f && next.right <= WIDTH - 10f && next.bottom <= HEIGHT - 24f)
        }
        screen.onNodeWithText(title).fetchSemanticsNode().boundsInWindow.let { title ->
            assertTrue("$title", title.top >= 40f && title.left >= 30f)
        }
        writeNote()
        cover(Insets.of(0, 40, 0, 24), keyboard = 300)
        screen.onNodeWithText("Record this note").fetchSemanticsNode().boundsInWindow.let { button ->
            assertTrue("$button", button.bottom <= HEIGHT - 300f && button.height >= 64f)
        }
        screen.onNodeWithTag("words").assertIsDisplayed()
    }

    private fun go(door: String) {
        screen.onNodeWithTag("page").performScrollToNode(hasTestTag(door))
        screen.onNodeWithTag(door).performClick()
        screen.waitForIdle()
    }

    private fun writeNote() {
        go("record")
        screen.onNodeWithText("Write a note").performClick()
        screen.waitForIdle()
    }

    private fun back() {
        activity.get().onBackPressedDispatcher.onBackPressed()
        screen.waitForIdle()
    }

    private fun open(saved: Bundle, first: Boolean): ActivityController<MainActivity> {
        val engine = bench.install()
        if (first) engine.get { addDemo("a") }
        title = engine.get { nowPage() }.vehicleTitle
        val controller = Robolectric.buildActivity(MainActivity::class.java)
        if (first) controller.setup() else controller.setup(saved)
        screen.waitForIdle()
        return controller
    }

    /** The process ends, and all that a new one has is the file and what was saved of the page. */
    private fun again() {
        val saved = Bundle()
        activity.pause().stop().saveInstanceState(saved).destroy()
        activity = open(saved, first = false)
    }

    private fun cover(bars: Insets, keyboard: Int) {
        val insets = WindowInsetsCompat.Builder()
            .setInsets(WindowInsetsCompat.Type.systemBars(), bars)
            .setInsets(WindowInsetsCompat.Type.ime(), Insets.of(0, 0, 0, keyboard))
            .setVisible(WindowInsetsCompat.Type.ime(), keyboard > 0)
            .build()
        ViewCompat.dispatchApplyWindowInsets(activity.get().window.decorView, insets)
        screen.waitForIdle()
    }

    private companion object {
        const val WIDTH = 411f
        const val HEIGHT = 891f
    }
}
