package org.stowfast.app.record

sealed interface RecordEvent {
    data object Shown : RecordEvent

    data class Note(val text: String) : RecordEvent

    /** Shows what can be done about an entry, or hides it. */
    data class Open(val entry: Long) : RecordEvent

    /** It was never so. */
    data class TakeBack(val entry: Long) : RecordEvent

    /** As many older entries again. */
    data object Older : RecordEvent

    data object Dismiss : RecordEvent
}
