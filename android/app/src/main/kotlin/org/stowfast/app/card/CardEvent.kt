package org.stowfast.app.card

sealed interface CardEvent {
    data object Shown : CardEvent

    data object Dismiss : CardEvent

    data object Enlarge : CardEvent

    data object Reduce : CardEvent

    /** A picture was chosen; [image] is null where the phone cannot read it. */
    class Choose(val image: ByteArray?) : CardEvent

    data object AskToRemove : CardEvent

    data object Keep : CardEvent

    data object Remove : CardEvent
}
