package org.stowfast.app.vehicle

import org.stowfast.engine.DemoRow
import org.stowfast.engine.Problem
import org.stowfast.engine.VehicleRow

/** [vehicles] is null until the engine has answered. [chosen] is true once, when one became the current one. */
data class VehicleState(
    val vehicles: List<VehicleRow>?,
    val demos: List<DemoRow>,
    val unreadable: Boolean,
    val problem: Problem?,
    val chosen: Boolean,
)
