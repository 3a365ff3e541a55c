package org.stowfast.app.target

sealed interface TargetEvent {
    data object Shown : TargetEvent

    /** Shows the parts of a target, or hides them. */
    data class Open(val targetId: String) : TargetEvent

    data class Tick(val partId: String) : TargetEvent

    data object Dismiss : TargetEvent
}
