package org.stowfast.app.wait

import android.app.AlarmManager
import android.app.Notification
import android.app.NotificationChannel
import android.app.NotificationManager
import android.app.PendingIntent
import android.content.Context
import android.content.Intent
import android.os.SystemClock
import androidx.annotation.DrawableRes
import androidx.annotation.StringRes
import org.stowfast.app.MainActivity
import org.stowfast.app.R

/** What a bell rings for: [call] is what its alarm says to the receiver, [opens] where its notification leads. */
enum class Rings(val call: String?, val channel: String, @StringRes val named: Int, @DrawableRes val icon: Int, val opens: String) {
    WAIT(null, "waits", R.string.wait_channel, R.drawable.ic_clock, MainActivity.ROUTINE),
    REMIND("org.stowfast.app.REMIND", "reminders", R.string.remind_channel, R.drawable.ic_gauge, MainActivity.RESERVES),
}

/**
 * One alarm and the one notification that it may lead to. The alarm is an inexact one, so it needs no permission; the phone
 * may ring it late, and nothing hangs on it.
 */
class Bell(private val context: Context, private val rings: Rings) {
    private val alarms = context.getSystemService(AlarmManager::class.java)
    private val notifications = context.getSystemService(NotificationManager::class.java)

    fun set(inMs: Long) =
        alarms.setAndAllowWhileIdle(AlarmManager.ELAPSED_REALTIME_WAKEUP, SystemClock.elapsedRealtime() + inMs, call())

    fun cancel() = alarms.cancel(call())

    /** Takes back what was said: somebody looked. */
    fun hush() = notifications.cancel(id)

    /** Says it where the phone may; else nothing but the page does. */
    fun say(title: String, text: String) {
        if (!notifications.areNotificationsEnabled()) return
        val name = context.getString(rings.named)
        notifications.createNotificationChannel(NotificationChannel(rings.channel, name, NotificationManager.IMPORTANCE_DEFAULT))
        val opens = Intent(rings.opens, null, context, MainActivity::class.java).addFlags(Intent.FLAG_ACTIVITY_NEW_TASK)
        val notification = Notification.Builder(context, rings.channel)
            .setSmallIcon(rings.icon)
            .setContentTitle(title)
            .setContentText(text)
            .setStyle(Notification.BigTextStyle().bigText(text))
            .setContentIntent(PendingIntent.getActivity(context, 0, opens, PendingIntent.FLAG_IMMUTABLE))
            .setAutoCancel(true)
            .build()
        notifications.notify(id, notification)
    }

    private val id = rings.ordinal + 1

    private fun call(): PendingIntent =
        PendingIntent.getBroadcast(context, 0, Intent(rings.call, null, context, WaitReceiver::class.java), PendingIntent.FLAG_IMMUTABLE)
}
