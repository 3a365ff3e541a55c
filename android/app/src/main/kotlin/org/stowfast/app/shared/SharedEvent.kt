package org.stowfast.app.shared

sealed interface SharedEvent {
    data object Shown : SharedEvent

    /** To the list of this person, from 0. */
    data class Show(val who: Int) : SharedEvent

    data object Dismiss : SharedEvent
}
