package org.stowfast.app.wait

import android.app.NotificationManager
import android.content.Context
import android.os.Build
import org.stowfast.app.R
import org.stowfast.engine.Outcome
import org.stowfast.engine.RoutinePage

/** Has the phone ask for a look at about the time when a routine's wait should be over. It records nothing. */
class Waits(private val context: Context) {
    private val kept = context.getSharedPreferences("waits", Context.MODE_PRIVATE)
    private val bell = Bell(context, Rings.WAIT)

    /** The one alarm is set to the wait that [page] says to be running now, or cancelled where it says none. */
    fun follow(page: RoutinePage?) {
        bell.hush()
        val left = page?.waitsS
        if (left == null) return cancel()
        kept.edit().putLong(RUN, page.run.id).apply()
        bell.set(left * 1_000L)
    }

    /**
     * The alarm rang, or the phone was [restarted], which forgets alarms: what the [engine] says now decides. Reading the
     * page sets the alarm anew for a wait that runs still; of a routine that is closed nothing is said. A restart may
     * leave ages unknown, so that the routine asks for something else first.
     */
    suspend fun called(engine: WaitingEngine, restarted: Boolean) {
        val run = kept.getLong(RUN, NONE)
        if (run == NONE) return
        val words = context.getString(if (restarted) R.string.wait_restarted else R.string.wait_look)
        when (val answer = engine.routine()) {
            is Outcome.Done -> {
                val page = answer.value
                if (page?.run?.id == run && page.waitsS == null) bell.say(page.run.targetTitle, words)
            }
            // Nothing is known, and to look does no harm.
            is Outcome.Failed -> {
                cancel()
                bell.say(context.getString(R.string.routine_heading), words)
            }
        }
    }

    /** True once in the life of the app, and only where the phone has to be asked. */
    fun mayAsk(): Boolean {
        if (Build.VERSION.SDK_INT < Build.VERSION_CODES.TIRAMISU || kept.getBoolean(ASKED, false)) return false
        kept.edit().putBoolean(ASKED, true).apply()
        return !context.getSystemService(NotificationManager::class.java).areNotificationsEnabled()
    }

    private fun cancel() {
        kept.edit().remove(RUN).apply()
        bell.cancel()
    }

    private companion object {
        const val RUN = "run"
        const val ASKED = "asked"
        const val NONE = -1L
    }
}
