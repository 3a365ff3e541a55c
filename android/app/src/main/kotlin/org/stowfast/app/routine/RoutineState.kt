package org.stowfast.app.routine

import org.stowfast.engine.Problem
import org.stowfast.engine.RoutinePage

/** [page] is null until the engine has [answered], and where no routine is under way. [closed] is true once, at the end. */
data class RoutineState(val page: RoutinePage?, val answered: Boolean, val closed: Boolean, val problem: Problem?)
