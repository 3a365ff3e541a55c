package org.stowfast.app.fridge

import org.stowfast.engine.FridgePage
import org.stowfast.engine.Problem
import java.time.LocalDateTime

/**
 * [page] is null until the engine has [answered], and where no such fridge is fitted. [picking] is when they leave, by the
 * clock here, while that is being chosen.
 */
data class FridgeState(val page: FridgePage?, val answered: Boolean, val picking: LocalDateTime?, val nowUtcMs: Long, val problem: Problem?)
