package org.stowfast.app

import androidx.compose.runtime.Composable
import org.stowfast.app.may.MayScreen
import org.stowfast.app.may.MayState
import org.stowfast.app.steps.StepsScreen
import org.stowfast.app.steps.StepsState
import org.stowfast.app.ui.Ways
import org.stowfast.engine.ActionRow
import org.stowfast.engine.MayPage
import org.stowfast.engine.Problem
import org.stowfast.engine.StepKind
import org.stowfast.engine.StepRow

/** May this be done now? All words are invented. */
object MayStates {
    fun screens(ways: Ways, step: StepRow): Map<String, @Composable () -> Unit> = mapOf(
        "may" to { MayScreen(MayState(MayPage(step, refused = true, "Not now.", listOf("The flue cover is on.", "A flame with the flue covered fills the vehicle with fumes.")), problem = null), ways, {}) {} },
        "may-free" to { MayScreen(MayState(MayPage(step, refused = false, "Nothing known speaks against it now.", emptyList()), problem = null), ways, {}) {} },
        "may-wait" to { MayScreen(MayState(page = null, problem = null), ways, {}) {} },
        "may-gone" to { MayScreen(MayState(page = null, Problem.NotFound("step", "hob.light")), ways, {}) {} },
        "steps" to { StepsScreen(StepsState(rows, sought = "", problem = null), ways, {}) {} },
        "steps-sought" to { StepsScreen(StepsState(rows, sought = "Pump", problem = null), ways, {}) {} },
        "steps-none" to { StepsScreen(StepsState(rows, sought = "sail", problem = null), ways, {}) {} },
        "steps-wait" to { StepsScreen(StepsState(rows = null, sought = "", problem = null), ways, {}) {} },
    )

    private val rows = listOf(
        ActionRow("pump.switch_on", StepKind.MOVE, "Switch the water pump on", "lounge", "Lounge and panel", hazard = false),
        ActionRow("pump.power", StepKind.LOOK, "Look at the switch of the water pump", "lounge", "Lounge and panel", hazard = false),
        ActionRow("gas.valve.open", StepKind.MOVE, "Open the gas valve at the cylinder", "left", "Rear left locker", hazard = true),
    )
}
