package org.stowfast.app.preview

import org.stowfast.engine.Problem
import org.stowfast.engine.RoutinePage
import org.stowfast.engine.RunRow
import org.stowfast.engine.VariantRow

/**
 * The way to something before it is begun. [way] is null until the engine has answered; [variants] are the ways of
 * wanting it, and [picked] the one that was picked, if any. [run] is the routine under way. [begun] is true once.
 */
data class PreviewState(
    val way: RoutinePage?,
    val variants: List<VariantRow>,
    val picked: String?,
    val run: RunRow?,
    val begun: Boolean,
    val problem: Problem?,
)
