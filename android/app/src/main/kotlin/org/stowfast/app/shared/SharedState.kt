package org.stowfast.app.shared

import org.stowfast.engine.Problem
import org.stowfast.engine.SharedPage

/** [page] is null until the engine has answered. [who] is the person whose list is on show, from 0. */
data class SharedState(val page: SharedPage?, val who: Int, val problem: Problem?)
