package org.stowfast.app.vehicle

import org.stowfast.engine.DemoRow
import org.stowfast.engine.Problem
import org.stowfast.engine.VehicleRow

/**
 * [vehicles] is null until the engine has answered. [written] is the file that everything went into last, if any. [chosen]
 * is true once, when one became the current one.
 */
data class VehicleState(
    val vehicles: List<VehicleRow>?,
    val demos: List<DemoRow>,
    val unreadable: Boolean,
    val written: Written?,
    val problem: Problem?,
    val chosen: Boolean,
)

/** A file by its name, and whether all of it was written. */
data class Written(val name: String, val whole: Boolean)
