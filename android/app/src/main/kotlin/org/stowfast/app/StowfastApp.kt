package org.stowfast.app

import android.app.Application
import android.os.SystemClock
import android.provider.Settings
import org.stowfast.app.theme.ThemeStore
import org.stowfast.engine.Moment
import org.stowfast.engine.RustVehicleEngine
import org.stowfast.engine.VehicleEngine
import java.util.Locale

/** Holds the one engine for as long as the process lives. */
class StowfastApp : Application() {
    /** Replaced only by tests. */
    var engine: VehicleEngine? = null

    /** How the app looks; kept apart from the record, which is not needed to draw. */
    val theme by lazy { ThemeStore(getSharedPreferences("theme", MODE_PRIVATE)) }

    fun engine(): VehicleEngine = engine ?: RustVehicleEngine(
        databasePath = getDatabasePath("stowfast.db").apply { parentFile?.mkdirs() }.path,
        language = Locale.getDefault().toLanguageTag(),
        clock = ::moment,
    ).also { engine = it }

    /** Both clocks, and which start of the phone the second one counts from. */
    fun moment() = Moment(
        utcMs = System.currentTimeMillis(),
        monotonicMs = SystemClock.elapsedRealtime(),
        bootId = Settings.Global.getString(contentResolver, Settings.Global.BOOT_COUNT),
    )
}
