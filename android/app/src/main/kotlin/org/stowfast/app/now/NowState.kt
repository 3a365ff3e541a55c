package org.stowfast.app.now

import org.stowfast.engine.NowPage
import org.stowfast.engine.Problem
import org.stowfast.engine.TargetRow

/**
 * [page] is null until the engine has answered, and while no vehicle is chosen.
 * [choosing] is true while the targets are on show, [running] once when a routine was begun or taken up again.
 */
data class NowState(
    val page: NowPage?,
    val vehicleMissing: Boolean,
    val targets: List<TargetRow>,
    val choosing: Boolean,
    val nowUtcMs: Long,
    val running: Boolean,
    val problem: Problem?,
)
