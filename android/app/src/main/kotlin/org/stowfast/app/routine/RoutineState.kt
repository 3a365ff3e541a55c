package org.stowfast.app.routine

import org.stowfast.engine.DoneRow
import org.stowfast.engine.Odd
import org.stowfast.engine.Problem
import org.stowfast.engine.RoutinePage

/**
 * [page] is null until the engine has [answered], and where no routine is under way. [odd] are the lines that were
 * otherwise than the current list says, by step. [confirmed] are the entries that the last gesture wrote: one tap
 * takes them all back. [noted] is the last note written here. [closed] is true once, at the end.
 */
data class RoutineState(
    val page: RoutinePage?,
    val answered: Boolean,
    val odd: Map<String, Odd>,
    val confirmed: List<Long>,
    val noted: DoneRow?,
    val closed: Boolean,
    val problem: Problem?,
)
