package org.stowfast.app.wait

import android.content.BroadcastReceiver
import android.content.Context
import android.content.Intent
import kotlinx.coroutines.CoroutineScope
import kotlinx.coroutines.Dispatchers
import kotlinx.coroutines.launch
import org.stowfast.app.StowfastApp

/** Called by the alarm, and when the phone has started. */
class WaitReceiver : BroadcastReceiver() {
    override fun onReceive(context: Context, intent: Intent) {
        val app = context.applicationContext as StowfastApp
        val asleep: PendingResult? = goAsync()
        CoroutineScope(Dispatchers.Main.immediate).launch {
            try {
                app.waits.called(app.engine(), restarted = intent.action == Intent.ACTION_BOOT_COMPLETED)
            } finally {
                asleep?.finish()
            }
        }
    }
}
