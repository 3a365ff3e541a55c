package org.stowfast.app

import androidx.compose.runtime.Composable
import org.stowfast.app.may.MayScreen
import org.stowfast.app.may.MayState
import org.stowfast.app.may.MayWays
import org.stowfast.app.steps.StepsScreen
import org.stowfast.app.steps.StepsState
import org.stowfast.app.ui.Ways

/** May this be done now? */
object MayStates {
    fun screens(ways: Ways): Map<String, @Composable () -> Unit> = mapOf(
        "may" to { may("boiler.heat_gas", ways) },
        "may-free" to { may("step.in", ways) },
        "may-many" to { may("lead.unplug", ways, morning) },
        "may-cool" to { may("boiler.open_drain", ways, morning) },
        "may-road" to { may("engine.drive_off", ways) },
        "may-wait" to { MayScreen(MayState(page = null, problem = null), ways, nowhere) {} },
        "may-gone" to { MayScreen(MayState(page = null, covered.problem { may("hob.light") }), ways, nowhere) {} },
        "steps" to { steps("", ways) },
        "steps-sought" to { steps("pump", ways) },
        "steps-none" to { steps("sail", ways) },
        "steps-wait" to { StepsScreen(StepsState(rows = null, sought = "", problem = null), ways, {}) {} },
    )

    /** The flue of the boiler is covered. */
    private val covered = Scene { report("boiler.heat" to "off", "boiler.cover" to "on") }

    private val morning = Scene()
    private val nowhere = MayWays({}, {}, {})

    @Composable
    private fun may(step: String, ways: Ways, scene: Scene = covered) = MayScreen(MayState(scene.get { may(step) }, problem = null), ways, nowhere) {}

    @Composable
    private fun steps(sought: String, ways: Ways) = StepsScreen(StepsState(covered.get { steps() }, sought, problem = null), ways, {}) {}
}
