package org.stowfast.app.fridge

sealed interface FridgeEvent {
    data object Shown : FridgeEvent

    /** A second has passed. */
    data object Tick : FridgeEvent

    data class Set(val selector: String) : FridgeEvent

    data object Dismiss : FridgeEvent
}
