package org.stowfast.app.fridge

sealed interface FridgeEvent {
    data object Shown : FridgeEvent

    /** A second has passed. */
    data object Tick : FridgeEvent

    data class Set(val selector: String) : FridgeEvent

    /** The departures that are offered are opened, or shut. */
    data class Choose(val open: Boolean) : FridgeEvent

    /** When they leave; null where that is open again. */
    data class Leave(val utcMs: Long?) : FridgeEvent

    data object Dismiss : FridgeEvent
}
