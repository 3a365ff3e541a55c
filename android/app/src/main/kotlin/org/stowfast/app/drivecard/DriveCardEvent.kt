package org.stowfast.app.drivecard

sealed interface DriveCardEvent {
    data object Shown : DriveCardEvent

    data object Dismiss : DriveCardEvent
}
