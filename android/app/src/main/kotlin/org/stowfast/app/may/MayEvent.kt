package org.stowfast.app.may

sealed interface MayEvent {
    data object Shown : MayEvent

    data object Dismiss : MayEvent
}
