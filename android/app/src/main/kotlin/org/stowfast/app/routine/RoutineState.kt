package org.stowfast.app.routine

import org.stowfast.engine.DoneRow
import org.stowfast.engine.Problem
import org.stowfast.engine.RoutinePage

/**
 * [page] is null until the engine has [answered], and where no routine is under way. [noted] is the last note written
 * here. [closed] is true once, at the end.
 */
data class RoutineState(
    val page: RoutinePage?,
    val answered: Boolean,
    val noted: DoneRow?,
    val closed: Boolean,
    val problem: Problem?,
)
