package org.stowfast.app.vehicle

sealed interface VehicleEvent {
    data object Shown : VehicleEvent

    data class AddDemo(val id: String) : VehicleEvent

    /** [text] is null where the file could not be read at all. [replaces] names the vehicle that is to have it, if any. */
    data class OpenPack(val name: String, val text: String?, val replaces: Long?) : VehicleEvent

    data class Choose(val id: Long) : VehicleEvent

    data object Left : VehicleEvent

    data object Dismiss : VehicleEvent
}
