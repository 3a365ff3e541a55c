package org.stowfast.app

import android.content.Intent
import androidx.compose.ui.test.assertIsDisplayed
import androidx.compose.ui.test.onNodeWithTag
import androidx.compose.ui.test.onNodeWithText
import androidx.compose.ui.test.performClick
import androidx.test.core.app.ApplicationProvider
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertNull
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.Shadows.shadowOf
import java.io.File

/** The app stops by itself, and tells of it the next time; what leaves the phone, the owner's own hand sends. */
@RunWith(RobolectricTestRunner::class)
class CrashTest : OnScreen() {
    private val app: StowfastApp get() = ApplicationProvider.getApplicationContext()

    @Test
    fun theReportNamesThePlaceInTheProgramAndNothingOfTheVehicle() {
        chooseDemo()
        openLeaving()
        val title = engine.get { vehicles() }.single().title
        crash(IllegalStateException("in $title", IllegalArgumentException("pack of $title")))
        val report = checkNotNull(app.crashes.report)
        for (line in listOf("stowfast: 0.1.0", "android: 14, 34", "thread: here", "page: ROUTINE", "java.lang.IllegalStateException", "java.lang.IllegalArgumentException")) {
            assertTrue("$line is not in $report", line in report)
        }
        assertTrue(report.contains("    at ${javaClass.name}."))
        assertFalse("it names the vehicle", title in report)
        assertEquals(listOf("report.txt", "unseen"), File(app.filesDir, "crash").list()?.sorted())
    }

    @Test
    fun atTheNextStartItIsOfferedOnceAndStartsAtHome() {
        chooseDemo()
        openLeaving()
        crash(IllegalStateException())
        kill()
        screen.onNodeWithTag("verdict").assertIsDisplayed()
        screen.onNodeWithTag("crash-offer").assertIsDisplayed()
        draw("real-crash-offer")
        screen.onNodeWithText("Not now").performClick()
        kill()
        screen.onNodeWithTag("crash-offer").assertDoesNotExist()
        tap("vehicles")
        tap("settings")
        tap("about")
        draw("real-about")
        tap("crash")
        screen.onNodeWithText("java.lang.IllegalStateException", substring = true).assertExists()
    }

    @Test
    fun itIsSharedByHandAloneAndDeleted() {
        crash(IllegalStateException())
        kill()
        screen.onNodeWithText("See the report").performClick()
        draw("real-crash")
        assertNull(started())
        page("Share it")
        screen.onNodeWithText("Share it").performClick()
        screen.waitForIdle()
        val shared = checkNotNull(checkNotNull(started()).getParcelableExtra(Intent.EXTRA_INTENT, Intent::class.java))
        assertEquals(Intent.ACTION_SEND to app.crashes.report, shared.action to shared.getStringExtra(Intent.EXTRA_TEXT))
        page("Delete it")
        screen.onNodeWithText("Delete it").performClick()
        screen.onNodeWithText("There is no report.").assertIsDisplayed()
        assertEquals(emptyList<String>(), File(app.filesDir, "crash").list()?.toList())
    }

    @Test
    fun nothingIsOfferedWhereNothingWentWrong() {
        screen.onNodeWithTag("crash-offer").assertDoesNotExist()
        assertNull(app.crashes.report)
    }

    /** What the platform does with an exception that nobody catches. */
    private fun crash(fault: Throwable) {
        screen.waitForIdle()
        val handler = checkNotNull(Thread.getDefaultUncaughtExceptionHandler())
        handler.uncaughtException(Thread({}, "here"), fault)
    }

    private fun started(): Intent? = shadowOf(app).nextStartedActivity
}
