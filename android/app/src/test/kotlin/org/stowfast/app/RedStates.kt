package org.stowfast.app

import androidx.compose.foundation.background
import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.Column
import androidx.compose.foundation.layout.ExperimentalLayoutApi
import androidx.compose.foundation.layout.FlowRow
import androidx.compose.foundation.layout.fillMaxSize
import androidx.compose.foundation.layout.padding
import androidx.compose.foundation.layout.size
import androidx.compose.material3.Icon
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Surface
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.ui.Modifier
import androidx.compose.ui.res.painterResource
import androidx.compose.ui.semantics.heading
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.unit.dp
import org.stowfast.app.alert.AlertScreen
import org.stowfast.app.alert.AlertState
import org.stowfast.app.alert.AlertWays
import org.stowfast.app.red.RedScreen
import org.stowfast.app.red.RedState
import org.stowfast.app.red.drawn
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.roles
import org.stowfast.engine.Problem
import org.stowfast.engine.Symbol

/** What shows red. */
object RedStates {
    fun screens(ways: Ways): Map<String, @Composable () -> Unit> = mapOf(
        "red" to { RedScreen(RedState(full.get { alerts() }, problem = null), ways, {}, {}) {} },
        "red-signs" to { Signs() },
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

    /** Every sign, on each ground that it is drawn on. */
    @OptIn(ExperimentalLayoutApi::class)
    @Composable
    private fun Signs() = Surface(Modifier.fillMaxSize()) {
        Column(Modifier.padding(top = 24.dp)) {
            Text("Signs", Modifier.semantics { heading() })
            for (tone in listOf(roles.quiet.copy(field = MaterialTheme.colorScheme.surface), roles.unknown.copy(field = MaterialTheme.colorScheme.surface), roles.blocked)) {
                FlowRow(Modifier.background(tone.field).padding(8.dp), Arrangement.spacedBy(12.dp), Arrangement.spacedBy(12.dp)) {
                    for (symbol in Symbol.entries) Icon(painterResource(symbol.drawn()), null, Modifier.size(40.dp), tone.mark)
                }
            }
        }
    }

    @Composable
    private fun alert(id: String, ways: Ways) {
        val planned = full.routine().steps.map { it.id }.toSet()
        AlertScreen(AlertState(full.get { alert(id) }, planned, reports = 0, problem = null), ways, nowhere) {}
    }
}
