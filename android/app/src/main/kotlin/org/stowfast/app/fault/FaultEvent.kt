package org.stowfast.app.fault

sealed interface FaultEvent {
    data object Shown : FaultEvent

    /** [asked] is what the page asks, or the cause that it found. */
    data class Answer(val asked: String, val answer: String) : FaultEvent

    /** What was said last. */
    data object Undo : FaultEvent

    /** What was said before, to be asked anew. */
    data class TakeBack(val entry: Long) : FaultEvent

    data object Again : FaultEvent

    data object Dismiss : FaultEvent
}
