package org.stowfast.app.stay

sealed interface StayEvent {
    data object Shown : StayEvent

    data class Choose(val nights: Long) : StayEvent

    data object Dismiss : StayEvent
}
