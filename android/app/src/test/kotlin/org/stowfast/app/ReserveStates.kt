package org.stowfast.app

import androidx.compose.runtime.Composable
import org.stowfast.app.reading.ReadingScreen
import org.stowfast.app.reading.ReadingState
import org.stowfast.app.reserve.ReserveScreen
import org.stowfast.app.reserve.ReserveState
import org.stowfast.app.settings.SettingsScreen
import org.stowfast.app.settings.SettingsState
import org.stowfast.app.theme.Brightness
import org.stowfast.app.theme.Contrast
import org.stowfast.app.theme.ThemeChoice
import org.stowfast.app.theme.ThemeState
import org.stowfast.app.ui.Ways
import org.stowfast.engine.GaugeUnit
import org.stowfast.engine.Problem

/** What is left, what a gauge shows, and what is set for all vehicles. */
object ReserveStates {
    fun screens(ways: Ways): Map<String, @Composable () -> Unit> = mapOf(
        "reserves" to { reserves(ReserveState(used.get { reserves() }, problem = null), ways) },
        "reserves-unread" to { reserves(ReserveState(unread.get { reserves() }, problem = null), ways) },
        "reserves-none" to { reserves(ReserveState(unread.get { reserves() }.copy(rows = emptyList()), problem = null), ways) },
        "reserves-wait" to { reserves(ReserveState(page = null, problem = null), ways) },
        "reserves-failed" to { reserves(ReserveState(page = null, Problem.Internal("disk I/O error")), ways) },
        "reading" to { reading("fresh", ways) },
        "reading-typed" to { reading("gas_left", ways) },
        "reading-questions" to { reading("battery", ways) },
        "settings" to { settings("metric", ThemeState(Brightness.SYSTEM, Contrast.SYSTEM), ways) },
        "settings-chosen" to { settings("imperial", ThemeState(Brightness.DARK, Contrast.HIGH), ways) },
        "settings-wait" to { settings(units = null, ThemeState(Brightness.SYSTEM, Contrast.SYSTEM), ways) },
    )

    private val unread = Scene()

    /** Tanks and cylinders read a day apart; then the vehicle does not stand level, and the waste gauge is read. */
    private val used = Scene {
        report("pitch.ground" to "level", "fresh.power" to "on", "waste.power" to "on")
        read("fresh", GaugeUnit.LAMPS, 4.0)
        read("gas_left", GaugeUnit.KILOGRAMS, 23.4)
        read("gas_right", GaugeUnit.KILOGRAMS, 22.9)
        pass(Scene.DAY_MS)
        read("fresh", GaugeUnit.LAMPS, 2.0)
        read("gas_left", GaugeUnit.KILOGRAMS, 20.4)
        pass(2 * Scene.HOUR_MS)
        report("pitch.ground" to "sloping")
        read("waste", GaugeUnit.LAMPS, 0.0)
    }

    private fun Scene.read(gauge: String, unit: GaugeUnit, value: Double) = get { enterReading(gauge, unit, value) }

    @Composable
    private fun reserves(state: ReserveState, ways: Ways) = ReserveScreen(state, ways, {}, {}) {}

    @Composable
    private fun reading(gauge: String, ways: Ways) = ReadingScreen(ReadingState(unread.get { gauges() }, asked = gauge, open = gauge, problem = null), ways) {}

    @Composable
    private fun settings(units: String?, look: ThemeState, ways: Ways) =
        SettingsScreen(SettingsState(units, reminds = units?.let { unread.get { remindChoices() } }, problem = null), ways, {}, {}) { ThemeChoice(look) {} }
}
