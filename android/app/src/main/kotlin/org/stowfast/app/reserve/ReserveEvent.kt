package org.stowfast.app.reserve

sealed interface ReserveEvent {
    data object Shown : ReserveEvent

    data object Dismiss : ReserveEvent
}
