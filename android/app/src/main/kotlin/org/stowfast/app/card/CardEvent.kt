package org.stowfast.app.card

sealed interface CardEvent {
    data object Shown : CardEvent

    data object Dismiss : CardEvent
}
