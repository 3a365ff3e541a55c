package org.stowfast.app.reserve

import org.stowfast.engine.Problem
import org.stowfast.engine.ReservePage

/** [page] is null until the engine has answered. */
data class ReserveState(val page: ReservePage?, val problem: Problem?)
