package org.stowfast.app.record

sealed interface RecordEvent {
    data object Shown : RecordEvent

    data class Note(val text: String) : RecordEvent

    data object Dismiss : RecordEvent
}
