package org.stowfast.app.place

sealed interface PlaceEvent {
    data object Shown : PlaceEvent

    data class ArriveAt(val placeId: String) : PlaceEvent

    /** [text] is null where the file could not be read at all. */
    data class OpenFile(val name: String, val text: String?) : PlaceEvent

    /** Somewhere that nothing is known of. */
    data object Elsewhere : PlaceEvent

    data class Country(val code: String) : PlaceEvent

    data class Carrier(val sort: String) : PlaceEvent

    data object Left : PlaceEvent

    data object Dismiss : PlaceEvent
}
