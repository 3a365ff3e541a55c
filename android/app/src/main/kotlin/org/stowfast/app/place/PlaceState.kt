package org.stowfast.app.place

import org.stowfast.engine.NowPage
import org.stowfast.engine.PlaceRow
import org.stowfast.engine.Problem
import org.stowfast.engine.RuleRow

/**
 * [now] is null until the engine has answered. [unreadable] says that a place file could not be read at all.
 * [arrived] is true once, when the vehicle came to stand.
 */
data class PlaceState(
    val now: NowPage?,
    val places: List<PlaceRow>,
    val rules: List<RuleRow>,
    val unreadable: Boolean,
    val arrived: Boolean,
    val problem: Problem?,
)
