package org.stowfast.app

import androidx.compose.runtime.Composable
import org.stowfast.app.may.MayScreen
import org.stowfast.app.may.MayState
import org.stowfast.app.steps.StepsScreen
import org.stowfast.app.steps.StepsState
import org.stowfast.app.ui.Ways

/** May this be done now? */
object MayStates {
    fun screens(ways: Ways): Map<String, @Composable () -> Unit> = mapOf(
        "may" to { may("boiler.heat_gas", ways) },
        "may-free" to { may("step.in", ways) },
        "may-wait" to { MayScreen(MayState(page = null, problem = null), ways, {}) {} },
        "may-gone" to { MayScreen(MayState(page = null, covered.problem { may("hob.light") }), ways, {}) {} },
        "steps" to { steps("", ways) },
        "steps-sought" to { steps("pump", ways) },
        "steps-none" to { steps("sail", ways) },
        "steps-wait" to { StepsScreen(StepsState(rows = null, sought = "", problem = null), ways, {}) {} },
    )

    /** The flue of the boiler is covered. */
    private val covered = Scene { report("boiler.heat" to "off", "boiler.cover" to "on") }

    @Composable
    private fun may(step: String, ways: Ways) = MayScreen(MayState(covered.get { may(step) }, problem = null), ways, {}) {}

    @Composable
    private fun steps(sought: String, ways: Ways) = StepsScreen(StepsState(covered.get { steps() }, sought, problem = null), ways, {}) {}
}
