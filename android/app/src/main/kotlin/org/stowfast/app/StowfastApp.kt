package org.stowfast.app

import android.app.Application
import android.os.SystemClock
import android.provider.Settings
import org.stowfast.app.crash.Crashes
import org.stowfast.app.frame.Where
import org.stowfast.app.theme.ThemeStore
import org.stowfast.app.wait.Reminders
import org.stowfast.app.wait.WaitingEngine
import org.stowfast.app.wait.Waits
import org.stowfast.engine.Moment
import org.stowfast.engine.RustVehicleEngine
import org.stowfast.engine.VehicleEngine
import java.util.Locale

/** Holds the one engine for as long as the process lives, and what is kept beside it. */
class StowfastApp : Application() {
    val waits by lazy { Waits(this) }
    val reminders by lazy { Reminders(this) }
    val where by lazy { Where(this) }
    val crashes by lazy { Crashes(this) { where.last } }
    private var held: WaitingEngine? = null

    override fun onCreate() {
        super.onCreate()
        crashes.watch { where.forget() }
    }

    /** Replaced only by tests. */
    var engine: VehicleEngine?
        get() = held
        set(value) {
            held = value?.let { WaitingEngine(it, waits, reminders) }
        }

    /** How the app looks; kept apart from the record, which is not needed to draw. */
    val theme by lazy { ThemeStore(getSharedPreferences("theme", MODE_PRIVATE)) }

    fun engine(): WaitingEngine = held ?: WaitingEngine(
        RustVehicleEngine(
            databasePath = getDatabasePath("stowfast.db").apply { parentFile?.mkdirs() }.path,
            language = Locale.getDefault().toLanguageTag(),
            clock = ::moment,
        ),
        waits,
        reminders,
    ).also { held = it }

    /** Both clocks, and which start of which phone the second one counts from: what was said on another is of no known age. */
    fun moment() = Moment(
        utcMs = System.currentTimeMillis(),
        monotonicMs = SystemClock.elapsedRealtime(),
        bootId = Settings.Global.getString(contentResolver, Settings.Global.BOOT_COUNT)?.let { count ->
            "${Settings.Secure.getString(contentResolver, Settings.Secure.ANDROID_ID)}/$count"
        },
    )
}
