package org.stowfast.app

import androidx.compose.ui.test.assertIsDisplayed
import androidx.compose.ui.test.hasStateDescription
import androidx.compose.ui.test.hasTestTag
import androidx.compose.ui.test.hasText
import androidx.compose.ui.test.junit4.createEmptyComposeRule
import androidx.compose.ui.test.onAllNodesWithTag
import androidx.compose.ui.test.onFirst
import androidx.compose.ui.test.onNodeWithContentDescription
import androidx.compose.ui.test.onNodeWithTag
import androidx.compose.ui.test.onNodeWithText
import androidx.compose.ui.test.performClick
import androidx.compose.ui.test.performScrollTo
import androidx.compose.ui.test.performScrollToNode
import androidx.test.core.app.ActivityScenario
import org.junit.After
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Before
import org.junit.Rule
import org.robolectric.annotation.Config
import org.stowfast.engine.GestureRow
import org.stowfast.engine.RoutinePage
import org.stowfast.engine.VehicleEngine

/** The app as a person uses it, with the real library and a real file. */
@Config(sdk = [34], qualifiers = "en-rGB-w411dp-h891dp-xhdpi")
abstract class OnScreen {
    @get:Rule
    val screen = createEmptyComposeRule()

    protected var bench = Bench()
    protected lateinit var engine: VehicleEngine
    protected lateinit var activity: ActivityScenario<MainActivity>

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

    protected fun chooseDemo() {
        screen.onNodeWithText("Welcome aboard").assertIsDisplayed()
        page("demo", tag = true)
        screen.onAllNodesWithTag("demo").onFirst().performClick()
        walk()
        screen.onNodeWithTag("verdict").assertIsDisplayed()
    }

    /** The invented vehicle that has everything. */
    protected fun chooseLarge() {
        screen.onNodeWithText("Welcome aboard").assertIsDisplayed()
        engine.get { addDemo("c") }
        engine.get { chooseVehicle(engine.get { vehicles() }.single().id) }
        kill()
    }

    protected fun openLeaving() = begin("ready_to_drive")

    /** From the first page into a routine, past what it will take. */
    protected fun begin(target: String) {
        screen.onNodeWithText("Get ready for…").performClick()
        tap("target-$target")
        screen.onNodeWithText("Begin: ", substring = true).performClick()
        walk()
        understood()
    }

    /** Brings a part of the page into sight, and taps it. */
    protected fun tap(tag: String) {
        page(tag, tag = true)
        screen.onNodeWithTag(tag).performClick()
        walk()
    }

    protected fun back() {
        screen.onNodeWithContentDescription("Back").performClick()
        walk()
    }

    /** Confirms what the current gesture confirms, as it asks for. */
    protected fun confirm() {
        val before = gesture()
        bench.pass(10_000)
        settle()
        screen.onNodeWithTag("confirm").performClick()
        if (before.hold) screen.onNodeWithTag("confirm").performClick()
        walk()
        understood()
        assertFalse("${before.steps} was not confirmed", routine().stops.firstOrNull()?.gestures?.first()?.steps == before.steps)
    }

    protected fun confirmUntil(reached: (GestureRow) -> Boolean) {
        while (!reached(gesture())) confirm()
    }

    /** What the page asks for now. */
    protected fun gesture(): GestureRow = routine().stops.first().gestures.first()

    /** Opens a line of the current list. */
    protected fun line(step: String) {
        screen.onNodeWithTag("page").performScrollToNode(hasTestTag("current-list"))
        screen.onNodeWithTag("line-$step").performScrollTo().performClick()
        walk()
    }

    /** Lets the button take note that its step is new. */
    protected fun settle() {
        screen.mainClock.advanceTimeBy(500)
        walk()
    }

    /** Opens what else can be done about the current step, and chooses from it. */
    protected fun more(choice: String) {
        page("More")
        screen.onNodeWithText("More").performClick()
        draw("real-more")
        screen.onNodeWithTag("more-$choice").performClick()
        walk()
    }

    protected fun putBack(by: String) {
        page(by)
        screen.onNodeWithText(by).performClick()
        walk()
        assertEquals(0, routine().stuck.size)
    }

    protected fun understood() {
        if (screen.onAllNodesWithTag("notices").fetchSemanticsNodes().isNotEmpty()) {
            screen.onNodeWithText("Understood").performClick()
            walk()
        }
    }

    /** Opens what else is in the way, where some of it is folded away. */
    protected fun unfold() {
        val row = hasTestTag("more-items") and hasStateDescription("Shut")
        if (runCatching { screen.onNodeWithTag("page").performScrollToNode(row) }.isFailure) return
        screen.onNode(row).performClick()
        walk()
    }

    protected fun page(what: String, tag: Boolean = false) {
        if (what.startsWith("item-")) unfold()
        screen.onNodeWithTag("page").performScrollToNode(if (tag) hasTestTag(what) else hasText(what))
        walk()
    }

    protected fun routine(): RoutinePage = engine.get { routine() } ?: throw AssertionError("no routine is under way")

    /** Ends the activity and the engine, and starts both anew on the same file. */
    protected fun kill() {
        activity.close()
        engine.close()
        engine = bench.install()
        activity = ActivityScenario.launch(MainActivity::class.java)
        walk()
    }

    /** Waits until nothing changes any more, and walks what is then on show. */
    protected fun walk() {
        screen.waitForIdle()
        activity.onActivity { assertEquals(emptyList<String>(), barriers(it)) }
    }

    protected fun draw(name: String) {
        walk()
        activity.onActivity { picture(name, it) }
    }
}
