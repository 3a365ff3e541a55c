package org.stowfast.app.now

import org.stowfast.engine.DriveCardPage
import org.stowfast.engine.ItemRow
import org.stowfast.engine.NowPage
import org.stowfast.engine.Problem
import org.stowfast.engine.RoutinePage
import org.stowfast.engine.StepRow

/**
 * [page] is null until the engine has answered, and while no vehicle is chosen. [road] is the target that ends on the road.
 * [opened] is the thing in the way that is on show, [leaving] is true while the last page before the road is.
 * [card] is what a driver must know of the vehicle; null until the engine has answered.
 * [running] is true once, when a routine was begun or taken up again.
 */
data class NowState(
    val page: NowPage?,
    val vehicleMissing: Boolean,
    val road: String?,
    val leaving: Boolean,
    val card: DriveCardPage?,
    val opened: Blocker?,
    val nowUtcMs: Long,
    val running: Boolean,
    val problem: Problem?,
)

/**
 * One thing in the way to [targetId], and the [step] that deals with it on the [way] there: both null until the engine has
 * answered, the step also where there is none. [against] is all that stands against taking it now.
 */
data class Blocker(val item: ItemRow, val targetId: String, val way: RoutinePage?, val step: StepRow?, val against: List<String>)
