package org.stowfast.app.fridge

import org.stowfast.engine.FridgePage
import org.stowfast.engine.Problem

/** [page] is null until the engine has [answered], and where no such fridge is fitted. [choosing] is when they leave. */
data class FridgeState(val page: FridgePage?, val answered: Boolean, val choosing: Boolean, val nowUtcMs: Long, val problem: Problem?)
