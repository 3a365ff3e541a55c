package org.stowfast.app.wait

import android.content.Context
import org.stowfast.app.now.line
import org.stowfast.engine.NowPage
import org.stowfast.engine.Outcome

/** Has the phone say what is to be filled or emptied soon, each once, as the first page does. It records nothing. */
class Reminders(private val context: Context) {
    private val kept = context.getSharedPreferences("reminders", Context.MODE_PRIVATE)
    private val bell = Bell(context, Rings.REMIND)

    /** Somebody reads [page]: what it says was said, and the one alarm is set to when it will say more. */
    fun follow(page: NowPage, nowUtcMs: Long) {
        bell.hush()
        keep(page, nowUtcMs)
    }

    /** The alarm rang, or the phone was restarted, which forgets alarms: what the [engine] says now decides. */
    suspend fun called(engine: WaitingEngine) {
        val page = (engine.nowPageUnseen() as? Outcome.Done)?.value ?: return
        val said = kept.getStringSet(SAID, emptySet()).orEmpty()
        val new = page.reminders.filterNot { it.id in said }
        keep(page, engine.utcMs())
        if (new.isNotEmpty()) bell.say(new.joinToString("; ") { it.line(context) }, new.joinToString(" ") { it.aboutText })
    }

    private fun keep(page: NowPage, nowUtcMs: Long) {
        kept.edit().putStringSet(SAID, page.reminders.map { it.id }.toSet()).apply()
        val next = page.remindUtcMs
        if (next == null) bell.cancel() else bell.set(next - nowUtcMs)
    }

    private companion object {
        const val SAID = "said"
    }
}
