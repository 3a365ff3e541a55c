package org.stowfast.app

import android.Manifest
import android.app.AlarmManager
import android.app.Notification
import android.app.NotificationManager
import android.app.PendingIntent
import android.content.Context
import android.content.Intent
import android.os.SystemClock
import androidx.compose.ui.test.assertIsDisplayed
import androidx.compose.ui.test.hasClickAction
import androidx.compose.ui.test.hasText
import androidx.compose.ui.test.onNodeWithTag
import androidx.compose.ui.test.onNodeWithText
import androidx.compose.ui.test.performClick
import androidx.lifecycle.Lifecycle
import androidx.test.core.app.ActivityScenario
import androidx.test.core.app.ApplicationProvider
import org.junit.Assert.assertEquals
import org.junit.Assert.assertNull
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.Shadows.shadowOf
import org.robolectric.shadows.ShadowAlarmManager
import org.robolectric.shadows.ShadowNotificationManager
import org.stowfast.app.wait.WaitReceiver
import org.stowfast.engine.Line

/** The phone says "look now" when a wait should be over, where it may, and nothing hangs on it. */
@RunWith(RobolectricTestRunner::class)
class WaitTest : OnScreen() {
    private val app: StowfastApp get() = ApplicationProvider.getApplicationContext()
    private val alarms: ShadowAlarmManager get() = shadowOf(app.getSystemService(Context.ALARM_SERVICE) as AlarmManager)
    private val notifications: ShadowNotificationManager
        get() = shadowOf(app.getSystemService(Context.NOTIFICATION_SERVICE) as NotificationManager)

    @Test
    fun aWaitSetsOneInexactAlarmForWhenItShouldBeOver() {
        val left = waiting()
        val alarm = alarms.scheduledAlarms.single()
        assertEquals(AlarmManager.ELAPSED_REALTIME_WAKEUP, alarm.getType())
        assertTrue("it is an exact one", alarm.isAllowWhileIdle && alarm.windowLengthMs != 0L)
        assertRingsIn(left)
        assertEquals(0, notifications.allNotifications.size)
    }

    @Test
    fun itSaysToLookRecordsNothingAndLeadsToTheRoutine() {
        val left = waiting()
        val title = routine().run.targetTitle
        kill()
        bench.pass(left * 1_000L)
        val before = engine.get { log(1_000) }
        ring()
        val said = notifications.allNotifications.single()
        assertEquals(title, said.extras.getString(Notification.EXTRA_TITLE))
        assertEquals("A wait should be over about now. Look now.", said.extras.getString(Notification.EXTRA_TEXT))
        assertEquals("it recorded something", before, engine.get { log(1_000) })
        assertEquals(0, alarms.scheduledAlarms.size)

        val opens = shadowOf(said.contentIntent).savedIntent
        activity.close()
        activity = ActivityScenario.launch(opens)
        screen.onNodeWithText(routine().steps.first().text).assertIsDisplayed()
        assertEquals("it was read", 0, notifications.allNotifications.size)
    }

    @Test
    fun itIsSetAnewWhereItRangTooEarly() {
        val left = waiting()
        bench.pass(60_000)
        ring()
        assertEquals(0, notifications.allNotifications.size)
        assertRingsIn(left - 60)
    }

    @Test
    fun itIsSetAnewAfterARestartForAsLongAsTheRoutineThenSays() {
        val left = waiting("battery_read")
        bench.pass(left * 500L)
        restart()
        val now = checkNotNull(routine().waitsS)
        assertTrue("a rest counts from the restart: $now of $left", now > left / 2)
        assertRingsIn(now)
        assertEquals(0, notifications.allNotifications.size)
    }

    @Test
    fun aRestartThatLeavesTheWaitInDoubtIsSaid() {
        val left = waiting()
        bench.pass(left * 500L)
        restart()
        assertNull("the routine asks for something first", routine().waitsS)
        assertEquals(0, alarms.scheduledAlarms.size)
        val said = notifications.allNotifications.single().extras.getString(Notification.EXTRA_TEXT)
        assertTrue("$said", checkNotNull(said).contains("restarted"))
    }

    @Test
    fun aRestartWithNoWaitRunningSetsNone() {
        chooseDemo()
        app.sendBroadcast(Intent(Intent.ACTION_BOOT_COMPLETED).setPackage(app.packageName))
        screen.waitForIdle()
        assertEquals(0, alarms.scheduledAlarms.size)
    }

    @Test
    fun itIsCancelledWhenTheRoutineCloses() {
        val left = waiting()
        more("end")
        screen.onNode(hasText("End routine") and hasClickAction()).performClick()
        screen.waitForIdle()
        assertNull(engine.get { routine() })
        assertEquals(0, alarms.scheduledAlarms.size)
        bench.pass(left * 1_000L)
        app.sendBroadcast(Intent(Intent.ACTION_BOOT_COMPLETED).setPackage(app.packageName))
        screen.waitForIdle()
        assertEquals(0, notifications.allNotifications.size)
    }

    @Test
    fun itIsCancelledWhenTheWaitIsOver() {
        val left = waiting()
        bench.pass(left * 1_000L)
        screen.onNodeWithTag("look-again").performClick()
        screen.waitForIdle()
        assertNull(routine().waitsS)
        assertEquals(0, alarms.scheduledAlarms.size)
    }

    @Test
    fun theOpenPageGoesOnByItselfWhenTheWaitIsOver() {
        val left = waiting()
        val waited = routine().steps.first().text
        timePasses(left - 1)
        screen.onNodeWithTag("look-again").assertIsDisplayed()
        timePasses(1)
        assertNull(routine().waitsS)
        screen.onNodeWithTag("look-again").assertDoesNotExist()
        screen.onNodeWithText(waited).assertDoesNotExist()
        screen.onNodeWithText(routine().steps.first().text).assertIsDisplayed()
    }

    @Test
    fun theOpenPageSaysByItselfThatSomebodyIsToBeThere() {
        chooseDemo()
        for (fact in listOf("pitch.water" to "tap", "fill_hose.hose" to "connected", "fresh.drain" to "shut")) {
            engine.get { report(fact.first, fact.second) }
        }
        engine.get { openRun("serviced") }
        engine.get { tick("fresh.start_filling") }
        screen.waitForIdle()
        understood()
        screen.onNodeWithText("Continue: ", substring = true).performClick()
        screen.waitForIdle()
        screen.onNodeWithText("be there in about", substring = true).assertExists()
        screen.onNodeWithText("go there now", substring = true).assertDoesNotExist()
        // The page names each moment anew: when to set out, and when it may be full.
        while (true) timePasses(routine().againS ?: break)
        screen.onNodeWithText("go there now", substring = true).assertExists()
    }

    @Test
    fun aPageThatIsNotOpenIsNotAskedFor() {
        val left = waiting()
        activity.moveToState(Lifecycle.State.CREATED)
        timePasses(left)
        assertEquals("only the phone's alarm asks", 1, alarms.scheduledAlarms.size)
    }

    @Test
    fun whoeverRefusesIsAskedOnceAndGoesOn() {
        notifications.setNotificationsEnabled(false)
        chooseDemo()
        begin("laid_up_winter")
        assertNull("asked before the first wait", asked())
        val left = untilWait()
        assertEquals(Manifest.permission.POST_NOTIFICATIONS, asked())
        kill()
        screen.onNodeWithText("Continue: ", substring = true).performClick()
        screen.waitForIdle()
        assertNull("asked a second time", asked())
        bench.pass(left * 1_000L)
        ring()
        assertEquals(0, notifications.allNotifications.size)
        screen.onNodeWithTag("look-again").performClick()
        screen.onNodeWithText(routine().steps.first().text).assertIsDisplayed()
    }

    /** Carries a routine out up to its first wait, with it on the screen; how long that is, in s. */
    private fun waiting(target: String = "laid_up_winter"): Int {
        chooseDemo()
        begin(target)
        return untilWait()
    }

    private fun untilWait(): Int {
        while (routine().waitsS == null) engine.get { confirm(gesture().steps.map { Line(it, null) }) }
        screen.waitForIdle()
        screen.onNodeWithTag("look-again").assertIsDisplayed()
        return checkNotNull(routine().waitsS)
    }

    /** The phone is turned off, which forgets its alarms, and on again. */
    private fun restart() {
        val call = Intent(app, WaitReceiver::class.java)
        val set = PendingIntent.getBroadcast(app, 0, call, PendingIntent.FLAG_NO_CREATE or PendingIntent.FLAG_IMMUTABLE)
        app.getSystemService(AlarmManager::class.java).cancel(checkNotNull(set))
        assertEquals(0, alarms.scheduledAlarms.size)
        activity.close()
        engine.close()
        bench.restart()
        engine = bench.install()
        app.sendBroadcast(Intent(Intent.ACTION_BOOT_COMPLETED).setPackage(app.packageName))
        screen.waitForIdle()
    }

    /** What the page said was said moments ago. */
    private fun assertRingsIn(seconds: Int) {
        val rings = alarms.scheduledAlarms.single().triggerAtMs - SystemClock.elapsedRealtime()
        assertTrue("$rings ms, not $seconds s", rings in (seconds - 1) * 1_000L..seconds * 1_000L)
    }

    /** For the engine, and for the page that is open. */
    private fun timePasses(seconds: Int) {
        bench.pass(seconds * 1_000L)
        screen.mainClock.advanceTimeBy(seconds * 1_000L)
        screen.waitForIdle()
    }

    private fun ring() {
        val alarm = alarms.scheduledAlarms.single()
        alarms.fireAlarm(alarm)
        screen.waitForIdle()
    }

    private fun asked(): String? {
        var asked: String? = null
        activity.onActivity { asked = shadowOf(it).lastRequestedPermission?.requestedPermissions?.single() }
        return asked
    }
}
