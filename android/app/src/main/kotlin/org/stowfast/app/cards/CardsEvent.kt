package org.stowfast.app.cards

sealed interface CardsEvent {
    data object Shown : CardsEvent

    data object Dismiss : CardsEvent
}
