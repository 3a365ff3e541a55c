package org.stowfast.app.cards

sealed interface CardsEvent {
    data object Shown : CardsEvent

    data class Seek(val words: String) : CardsEvent

    data object Dismiss : CardsEvent
}
