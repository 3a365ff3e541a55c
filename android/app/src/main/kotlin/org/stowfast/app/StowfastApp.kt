package org.stowfast.app

import android.app.Application
import android.os.SystemClock
import android.provider.Settings
import org.stowfast.engine.Moment
import org.stowfast.engine.RustVehicleEngine
import org.stowfast.engine.VehicleEngine
import java.util.Locale

/** Holds the one engine for as long as the process lives. */
class StowfastApp : Application() {
    /** Replaced only by tests. */
    var engine: VehicleEngine? = null

    fun engine(): VehicleEngine = engine ?: RustVehicleEngine(
        databasePath = getDatabasePath("stowfast.db").apply { parentFile?.mkdirs() }.path,
        language = Locale.getDefault().toLanguageTag(),
        clock = ::moment,
    ).also { engine = it }

    /** Both clocks, and which start of which phone the second one counts from: what was said on another is of no known age. */
    fun moment() = Moment(
        utcMs = System.currentTimeMillis(),
        monotonicMs = SystemClock.elapsedRealtime(),
        bootId = Settings.Global.getString(contentResolver, Settings.Global.BOOT_COUNT)?.let { count ->
            "${Settings.Secure.getString(contentResolver, Settings.Secure.ANDROID_ID)}/$count"
        },
    )
}
