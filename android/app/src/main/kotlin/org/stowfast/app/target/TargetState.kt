package org.stowfast.app.target

import org.stowfast.engine.Problem
import org.stowfast.engine.TargetRow

/** [targets] is null until the engine has answered. [open] is the target whose parts are on show, [ticked] those that are meant. */
data class TargetState(val targets: List<TargetRow>?, val open: String?, val ticked: Set<String>, val problem: Problem?)
