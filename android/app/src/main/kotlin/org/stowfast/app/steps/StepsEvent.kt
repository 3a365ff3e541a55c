package org.stowfast.app.steps

sealed interface StepsEvent {
    data object Shown : StepsEvent

    data class Seek(val words: String) : StepsEvent

    data object Dismiss : StepsEvent
}
