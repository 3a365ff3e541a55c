package org.stowfast.app.reckon

import org.stowfast.engine.Pick
import org.stowfast.engine.Problem
import org.stowfast.engine.Reckoning

/** [page] is null until the engine has answered. [open] is the number that is being typed. */
data class ReckonState(val picks: List<Pick>, val open: String?, val page: Reckoning?, val problem: Problem?)
