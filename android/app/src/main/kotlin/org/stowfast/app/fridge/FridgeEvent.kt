package org.stowfast.app.fridge

import java.time.LocalDateTime

sealed interface FridgeEvent {
    data object Shown : FridgeEvent

    /** A second has passed. */
    data object Tick : FridgeEvent

    data class Set(val selector: String) : FridgeEvent

    /** When they leave is being chosen, and stands so by the clock here; null where that is given up. */
    data class Pick(val at: LocalDateTime?) : FridgeEvent

    /** When they leave; null where that is open again. */
    data class Leave(val utcMs: Long?) : FridgeEvent

    data object Dismiss : FridgeEvent
}
