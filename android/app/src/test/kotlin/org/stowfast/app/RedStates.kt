package org.stowfast.app

import androidx.compose.runtime.Composable
import org.stowfast.app.alert.AlertScreen
import org.stowfast.app.alert.AlertState
import org.stowfast.app.alert.AlertWays
import org.stowfast.app.red.RedScreen
import org.stowfast.app.red.RedState
import org.stowfast.app.ui.Ways
import org.stowfast.engine.Problem

/** What shows red. */
object RedStates {
    fun screens(ways: Ways): Map<String, @Composable () -> Unit> = mapOf(
        "red" to { RedScreen(RedState(full.get { alerts() }, problem = null), ways, {}, {}) {} },
        "red-none" to { RedScreen(RedState(emptyList(), problem = null), ways, {}, {}) {} },
        "red-failed" to { RedScreen(RedState(null, Problem.Internal("disk I/O error")), ways, {}, {}) {} },
        "alert" to { alert("waste.full", ways) },
        "alert-uncertain" to { alert("boiler.locked_out", ways) },
        "alert-normal" to { alert("step.open", ways) },
        "alert-not" to { alert("brakes.warning", ways) },
        "alert-unknown" to { alert("battery.low", ways) },
        "alert-wait" to { AlertScreen(AlertState(page = null, planned = emptySet(), reports = 0, problem = null), ways, nowhere) {} },
    )

    private val nowhere = AlertWays({}, {}, {}, {})

    /** The waste tank is full and the boiler's lamp is red, on the way out. */
    private val full = Scene {
        report("waste.level" to "full", "boiler.lamp" to "red")
        get { openRun("ready_to_drive") }
    }

    @Composable
    private fun alert(id: String, ways: Ways) {
        val planned = full.routine().steps.map { it.id }.toSet()
        AlertScreen(AlertState(full.get { alert(id) }, planned, reports = 0, problem = null), ways, nowhere) {}
    }
}
