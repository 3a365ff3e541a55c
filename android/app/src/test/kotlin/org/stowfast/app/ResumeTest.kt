package org.stowfast.app

import android.os.Bundle
import android.os.Parcel
import android.view.View
import android.view.ViewGroup
import androidx.compose.ui.test.assertIsDisplayed
import androidx.compose.ui.test.assertIsSelected
import androidx.compose.ui.test.onNodeWithContentDescription
import androidx.compose.ui.test.onNodeWithTag
import androidx.compose.ui.test.onNodeWithText
import androidx.compose.ui.test.performClick
import androidx.lifecycle.Lifecycle
import androidx.test.platform.app.InstrumentationRegistry
import org.junit.After
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.Robolectric
import org.robolectric.RobolectricTestRunner
import org.robolectric.android.controller.ActivityController

/** The process dies without a word, and a fresh activity starts on the same files. */
@RunWith(RobolectricTestRunner::class)
class ResumeTest : OnScreen() {
    private var next: ActivityController<MainActivity>? = null

    @After
    fun stopNext() {
        next?.close()
    }

    @Test
    fun theRoutineIsOnTheScreenAgainEvenWithoutASavedState() {
        chooseDemo()
        openLeaving()
        repeat(2) { confirm() }
        val before = routine()
        die(saved = null)
        assertEquals(before, routine())
        screen.onNodeWithTag("progress").assertIsDisplayed()
        screen.onNodeWithText(before.steps.first().text).assertExists()
        back()
        screen.onNodeWithTag("verdict").assertIsDisplayed()
    }

    @Test
    fun theListThatWasChosenIsOnTheScreenAgain() {
        chooseDemo()
        openLeaving()
        more("share")
        screen.onNodeWithTag("person-1").performClick()
        die(save())
        screen.onNodeWithTag("person-1").assertIsSelected()
        back()
        screen.onNodeWithTag("progress").assertIsDisplayed()
    }

    @Test
    fun thePartsThatWereTickedAreTickedStill() {
        chooseDemo()
        screen.onNodeWithText("Get ready for…").performClick()
        tap("target-serviced")
        tap("part-waste")
        die(save())
        screen.onNodeWithTag("part-waste").assertIsSelected()
        tap("choose")
        screen.onNodeWithText("Begin: ${engine.get { preview("serviced/waste") }.run.targetTitle}").assertExists()
    }

    @Test
    fun theNightsThatWereChosenAreChosenStill() {
        chooseDemo()
        tap("reserves")
        tap("stay")
        tap("nights-7")
        die(save())
        screen.onNodeWithTag("nights-7").assertIsSelected()
        screen.onNodeWithText(engine.get { stay(7) }.title).assertExists()
    }

    @Test
    fun whoeverLeftOnPurposeBeginsAtHome() {
        chooseDemo()
        openLeaving()
        kill()
        screen.onNodeWithTag("verdict").assertIsDisplayed()
    }

    @Test
    fun theScreenStaysOnWhileThereIsSomethingToDoInARoutineAndNowhereElse() {
        chooseDemo()
        assertFalse("on the first page", keptOn())
        openLeaving()
        assertTrue("in a routine", keptOn())
        screen.onNodeWithContentDescription("Emergency").performClick()
        screen.waitForIdle()
        assertFalse("off the routine", keptOn())
        back()
        assertTrue("back in it", keptOn())
        more("pause")
        assertFalse("laid aside", keptOn())
        screen.onNodeWithText("Continue").performClick()
        screen.waitForIdle()
        assertTrue("taken up again", keptOn())
        engine.get { closeRun() }
        screen.waitForIdle()
        assertFalse("closed", keptOn())
    }

    /** What the phone keeps of an activity whose process it ends, through a parcel as there. */
    private fun save(): Bundle {
        activity.moveToState(Lifecycle.State.CREATED)
        val parcel = Parcel.obtain()
        activity.onActivity {
            val saved = Bundle()
            InstrumentationRegistry.getInstrumentation().callActivityOnSaveInstanceState(it, saved)
            parcel.writeBundle(saved)
        }
        parcel.setDataPosition(0)
        return checkNotNull(parcel.readBundle(MainActivity::class.java.classLoader)).also { parcel.recycle() }
    }

    /** The activity is not told; only what was kept before is there. */
    private fun die(saved: Bundle?) {
        if (saved == null) activity.moveToState(Lifecycle.State.CREATED)
        engine.close()
        engine = bench.install()
        next = Robolectric.buildActivity(MainActivity::class.java).also { if (saved == null) it.setup() else it.setup(saved) }
        screen.waitForIdle()
    }

    private fun keptOn(): Boolean {
        screen.waitForIdle()
        var on = false
        activity.onActivity { on = keepsOn(it.window.decorView) }
        return on
    }

    private fun keepsOn(view: View): Boolean =
        view.keepScreenOn || view is ViewGroup && (0 until view.childCount).any { keepsOn(view.getChildAt(it)) }
}
