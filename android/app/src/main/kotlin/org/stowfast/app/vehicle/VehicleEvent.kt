package org.stowfast.app.vehicle

import org.stowfast.app.ui.NewFile

sealed interface VehicleEvent {
    data object Shown : VehicleEvent

    data class AddDemo(val id: String) : VehicleEvent

    /** [text] is null where the file could not be read at all. [replaces] names the vehicle that is to have it, if any. */
    data class OpenPack(val name: String, val text: String?, val replaces: Long?) : VehicleEvent

    /** Everything goes into this file. */
    data class Export(val file: NewFile) : VehicleEvent

    /** What such a file holds is added. [text] is null where it could not be read at all. */
    data class Import(val name: String, val text: String?) : VehicleEvent

    data class Choose(val id: Long) : VehicleEvent

    data object Left : VehicleEvent

    data object Dismiss : VehicleEvent
}
