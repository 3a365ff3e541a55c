package org.stowfast.app.faults

sealed interface FaultsEvent {
    data object Shown : FaultsEvent

    data object Dismiss : FaultsEvent
}
