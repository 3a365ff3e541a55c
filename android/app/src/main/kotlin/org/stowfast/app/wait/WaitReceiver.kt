package org.stowfast.app.wait

import android.content.BroadcastReceiver
import android.content.Context
import android.content.Intent
import kotlinx.coroutines.CoroutineScope
import kotlinx.coroutines.Dispatchers
import kotlinx.coroutines.launch
import org.stowfast.app.StowfastApp

/** Called by the alarms, and when the phone has started. */
class WaitReceiver : BroadcastReceiver() {
    override fun onReceive(context: Context, intent: Intent) {
        val app = context.applicationContext as StowfastApp
        val restarted = intent.action == Intent.ACTION_BOOT_COMPLETED
        val asleep: PendingResult? = goAsync()
        CoroutineScope(Dispatchers.Main.immediate).launch {
            try {
                if (restarted || intent.action == Rings.WAIT.call) app.waits.called(app.engine(), restarted)
                if (restarted || intent.action == Rings.REMIND.call) app.reminders.called(app.engine())
            } finally {
                asleep?.finish()
            }
        }
    }
}
