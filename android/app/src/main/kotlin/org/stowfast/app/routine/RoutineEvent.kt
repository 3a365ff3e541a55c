package org.stowfast.app.routine

import org.stowfast.engine.Odd

sealed interface RoutineEvent {
    data object Shown : RoutineEvent

    /** Each step was done, or its look showed what is wanted, but for the lines marked odd. */
    data class Confirm(val steps: List<String>) : RoutineEvent

    /** A line of the list was [odd], or as it says after all. It is recorded with the list. */
    data class Mark(val stepId: String, val odd: Odd?) : RoutineEvent

    /** The look showed this. */
    data class See(val stepId: String, val choiceId: String) : RoutineEvent

    data class Cannot(val stepId: String, val note: String) : RoutineEvent

    /** The step is left as it is, knowingly. */
    data class Leave(val stepId: String, val note: String) : RoutineEvent

    data class Note(val text: String) : RoutineEvent

    data class Undo(val entry: Long) : RoutineEvent

    data class Unstick(val entry: Long) : RoutineEvent

    data object Pause : RoutineEvent

    data object Resume : RoutineEvent

    data object Close : RoutineEvent

    data object Left : RoutineEvent

    data object Dismiss : RoutineEvent
}
