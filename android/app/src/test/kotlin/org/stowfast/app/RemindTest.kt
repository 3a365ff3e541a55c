package org.stowfast.app

import android.app.AlarmManager
import android.app.Notification
import android.app.NotificationManager
import android.app.PendingIntent
import android.content.Context
import android.content.Intent
import android.os.SystemClock
import androidx.compose.ui.test.assertIsDisplayed
import androidx.compose.ui.test.assertIsSelected
import androidx.compose.ui.test.onNodeWithTag
import androidx.compose.ui.test.onNodeWithText
import androidx.test.core.app.ActivityScenario
import androidx.test.core.app.ApplicationProvider
import org.junit.Assert.assertEquals
import org.junit.Assert.assertNotNull
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.Shadows.shadowOf
import org.robolectric.shadows.ShadowAlarmManager
import org.robolectric.shadows.ShadowNotificationManager
import org.stowfast.app.wait.Rings
import org.stowfast.app.wait.WaitReceiver
import org.stowfast.engine.GaugeUnit

/** What is to be filled or emptied soon: a line on the first page, and where the phone may, one notification. */
@RunWith(RobolectricTestRunner::class)
class RemindTest : OnScreen() {
    private val app: StowfastApp get() = ApplicationProvider.getApplicationContext()
    private val alarms: ShadowAlarmManager get() = shadowOf(app.getSystemService(Context.ALARM_SERVICE) as AlarmManager)
    private val notifications: ShadowNotificationManager
        get() = shadowOf(app.getSystemService(Context.NOTIFICATION_SERVICE) as NotificationManager)

    @Test
    fun theFirstPageSaysWhatToFillByWhenAndLeadsToWhatIsLeft() {
        aDayApart()
        page("remind-fresh", tag = true)
        screen.onNodeWithText("Fresh tank: fill it by ", substring = true).assertExists()
        screen.onNodeWithText("How long it lasts: about 10 hours to 3 days.").assertExists()
        draw("real-remind")
        assertEquals("whoever reads it need not be told", 0, notifications.allNotifications.size)
        tap("remind-fresh")
        page("reserve-fresh", tag = true)
        screen.onNodeWithTag("reserve-fresh").assertExists()
    }

    @Test
    fun theAlarmIsSetToTheMomentThatTheEngineNames() {
        val next = sixHoursBefore()
        val alarm = alarms.scheduledAlarms.single()
        assertEquals(AlarmManager.ELAPSED_REALTIME_WAKEUP, alarm.getType())
        assertTrue("it is an exact one", alarm.isAllowWhileIdle && alarm.windowLengthMs != 0L)
        assertRingsIn(next - bench.nowMs)
    }

    @Test
    fun itIsSaidOnceAndLeadsToWhatIsLeft() {
        val next = sixHoursBefore()
        kill()
        bench.pass(next - bench.nowMs)
        val before = engine.get { log(1_000) }
        ring()
        val said = notifications.allNotifications.single()
        assertTrue(said.extras.getString(Notification.EXTRA_TITLE).orEmpty().startsWith("Fresh tank: fill it by "))
        assertTrue(said.extras.getString(Notification.EXTRA_TEXT).orEmpty().startsWith("How long it lasts: "))
        assertEquals("it recorded something", before, engine.get { log(1_000) })
        app.getSystemService(NotificationManager::class.java).cancelAll()
        app.sendBroadcast(Intent(Intent.ACTION_BOOT_COMPLETED).setPackage(app.packageName))
        screen.waitForIdle()
        assertEquals("said twice", 0, notifications.allNotifications.size)

        val opens = shadowOf(said.contentIntent).savedIntent
        activity.close()
        activity = ActivityScenario.launch(opens)
        screen.waitForIdle()
        page("reserve-fresh", tag = true)
    }

    @Test
    fun whatWasFilledInTimeIsNotSaid() {
        val next = sixHoursBefore()
        bench.pass(next - bench.nowMs - 60_000)
        engine.get { enterReading("fresh", GaugeUnit.LAMPS, 4.0) }
        screen.waitForIdle()
        bench.pass(60_000)
        ring()
        assertEquals(0, notifications.allNotifications.size)
        assertEquals("it is set anew", 1, alarms.scheduledAlarms.size)
    }

    @Test
    fun afterARestartItIsSetAnewAndAsksForAReading() {
        val next = sixHoursBefore()
        restart()
        assertRingsIn(next - bench.nowMs)
        assertEquals(0, notifications.allNotifications.size)
        bench.pass(next - bench.nowMs)
        ring()
        val said = notifications.allNotifications.single()
        assertEquals("Fresh tank: read its gauge now", said.extras.getString(Notification.EXTRA_TITLE))
    }

    @Test
    fun whereThePhoneMayNotSayItOnlyThePageDoes() {
        notifications.setNotificationsEnabled(false)
        val next = sixHoursBefore()
        bench.pass(next - bench.nowMs)
        ring()
        assertEquals(0, notifications.allNotifications.size)
        kill()
        page("remind-fresh", tag = true)
    }

    @Test
    fun howLongBeforeIsChosenAndNeverIsNever() {
        aDayApart()
        assertNotNull(engine.get { nowPage() }.reminders.singleOrNull())
        tap("vehicles")
        tap("settings")
        page("remind", tag = true)
        screen.onNodeWithTag("remind-24").assertIsSelected()
        tap("remind-0")
        screen.onNodeWithTag("remind-0").assertIsSelected()
        draw("real-remind-never")
        back()
        screen.onNodeWithTag("remind-fresh").assertDoesNotExist()
        assertEquals(0, alarms.scheduledAlarms.size)
    }

    /** Two readings of the fresh tank a day apart, and the first page on show. */
    private fun aDayApart() {
        chooseDemo()
        engine.get { enterReading("fresh", GaugeUnit.LAMPS, 4.0) }
        bench.pass(DAY_MS)
        engine.get { enterReading("fresh", GaugeUnit.LAMPS, 2.0) }
        screen.waitForIdle()
        understood()
        screen.onNodeWithTag("verdict").assertIsDisplayed()
    }

    /** The same, to be told six hours before; when that will be. */
    private fun sixHoursBefore(): Long {
        aDayApart()
        engine.get { setRemindH(6) }
        screen.waitForIdle()
        screen.onNodeWithTag("remind-fresh").assertDoesNotExist()
        return checkNotNull(engine.get { nowPage() }.remindUtcMs)
    }

    /** The phone is turned off, which forgets its alarms, and on again. */
    private fun restart() {
        val call = Intent(Rings.REMIND.call, null, app, WaitReceiver::class.java)
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
    private fun assertRingsIn(ms: Long) {
        val rings = alarms.scheduledAlarms.single().triggerAtMs - SystemClock.elapsedRealtime()
        assertTrue("$rings ms, not $ms", rings in ms - 1_000..ms)
    }

    private fun ring() {
        alarms.fireAlarm(alarms.scheduledAlarms.single())
        screen.waitForIdle()
    }

    private companion object {
        const val DAY_MS = 86_400_000L
    }
}
