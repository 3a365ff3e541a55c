package org.stowfast.app.wait

import android.app.AlarmManager
import android.app.Notification
import android.app.NotificationChannel
import android.app.NotificationManager
import android.app.PendingIntent
import android.content.Context
import android.content.Intent
import android.os.Build
import android.os.SystemClock
import androidx.annotation.StringRes
import org.stowfast.app.MainActivity
import org.stowfast.app.R
import org.stowfast.engine.Outcome
import org.stowfast.engine.RoutinePage

/**
 * Has the phone ask for a look at about the time when a routine's wait should be over. The alarm is an inexact one, so
 * it needs no permission; the phone may ring it late, and nothing hangs on it. It records nothing.
 */
class Waits(private val context: Context) {
    private val kept = context.getSharedPreferences("waits", Context.MODE_PRIVATE)
    private val alarms = context.getSystemService(AlarmManager::class.java)
    private val notifications = context.getSystemService(NotificationManager::class.java)

    /** The one alarm is set to the wait that [page] says to be running now, or cancelled where it says none. */
    fun follow(page: RoutinePage?) {
        notifications.cancel(NOTIFICATION)
        val left = page?.waitsS
        if (left == null) return cancel()
        kept.edit().putLong(RUN, page.run.id).apply()
        alarms.setAndAllowWhileIdle(AlarmManager.ELAPSED_REALTIME_WAKEUP, SystemClock.elapsedRealtime() + left * 1_000L, call())
    }

    /**
     * The alarm rang, or the phone was [restarted], which forgets alarms: what the [engine] says now decides. Reading the
     * page sets the alarm anew for a wait that runs still; of a routine that is closed nothing is said. A restart may
     * leave ages unknown, so that the routine asks for something else first.
     */
    suspend fun called(engine: WaitingEngine, restarted: Boolean) {
        val run = kept.getLong(RUN, NONE)
        if (run == NONE) return
        val words = if (restarted) R.string.wait_restarted else R.string.wait_look
        when (val answer = engine.routine()) {
            is Outcome.Done -> {
                val page = answer.value
                if (page?.run?.id == run && page.waitsS == null) notify(page.run.targetTitle, words)
            }
            // Nothing is known, and to look does no harm.
            is Outcome.Failed -> {
                cancel()
                notify(context.getString(R.string.routine_heading), words)
            }
        }
    }

    /** True once in the life of the app, and only where the phone has to be asked. */
    fun mayAsk(): Boolean {
        if (Build.VERSION.SDK_INT < Build.VERSION_CODES.TIRAMISU || kept.getBoolean(ASKED, false)) return false
        kept.edit().putBoolean(ASKED, true).apply()
        return !notifications.areNotificationsEnabled()
    }

    private fun cancel() {
        kept.edit().remove(RUN).apply()
        alarms.cancel(call())
    }

    private fun notify(title: String, @StringRes words: Int) {
        if (!notifications.areNotificationsEnabled()) return
        val name = context.getString(R.string.wait_channel)
        notifications.createNotificationChannel(NotificationChannel(CHANNEL, name, NotificationManager.IMPORTANCE_DEFAULT))
        val opens = Intent(MainActivity.ROUTINE, null, context, MainActivity::class.java).addFlags(Intent.FLAG_ACTIVITY_NEW_TASK)
        val notification = Notification.Builder(context, CHANNEL)
            .setSmallIcon(R.drawable.ic_clock)
            .setContentTitle(title)
            .setContentText(context.getString(words))
            .setContentIntent(PendingIntent.getActivity(context, 0, opens, PendingIntent.FLAG_IMMUTABLE))
            .setAutoCancel(true)
            .build()
        notifications.notify(NOTIFICATION, notification)
    }

    private fun call(): PendingIntent =
        PendingIntent.getBroadcast(context, 0, Intent(context, WaitReceiver::class.java), PendingIntent.FLAG_IMMUTABLE)

    private companion object {
        const val CHANNEL = "waits"
        const val NOTIFICATION = 1
        const val RUN = "run"
        const val ASKED = "asked"
        const val NONE = -1L
    }
}
