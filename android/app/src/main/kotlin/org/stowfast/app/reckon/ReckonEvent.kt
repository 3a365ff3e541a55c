package org.stowfast.app.reckon

import org.stowfast.engine.Pick

sealed interface ReckonEvent {
    data object Shown : ReckonEvent

    /** An option of a choice was tapped. */
    data class Choose(val choiceId: String, val optionId: String) : ReckonEvent

    /** A number was typed for a choice; null where none is picked any more. */
    data class Number(val choiceId: String, val value: Double?) : ReckonEvent

    /** It is asked with these alone. */
    data class Given(val picks: List<Pick>) : ReckonEvent

    /** One of the numbers is to be told that only people can tell, or a number of a choice is to be typed. */
    data class Open(val id: String) : ReckonEvent

    data class Tell(val figureId: String, val value: Double?) : ReckonEvent

    data object Dismiss : ReckonEvent
}
