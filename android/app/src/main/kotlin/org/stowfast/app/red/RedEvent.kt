package org.stowfast.app.red

sealed interface RedEvent {
    data object Shown : RedEvent

    data object Dismiss : RedEvent
}
