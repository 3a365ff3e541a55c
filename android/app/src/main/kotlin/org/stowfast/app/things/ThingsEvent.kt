package org.stowfast.app.things

sealed interface ThingsEvent {
    data object Shown : ThingsEvent

    /** Opens a thing, or shuts it again. */
    data class Open(val variable: String) : ThingsEvent

    data class Report(val variable: String, val setting: String) : ThingsEvent

    data object Dismiss : ThingsEvent
}
