package org.stowfast.app.stay

import org.stowfast.engine.Problem
import org.stowfast.engine.StayPage

/** [nights] are asked for; [page] is null until the engine has answered. */
data class StayState(val nights: Long, val page: StayPage?, val problem: Problem?)
