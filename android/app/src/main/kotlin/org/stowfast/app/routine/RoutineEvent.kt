package org.stowfast.app.routine

sealed interface RoutineEvent {
    data object Shown : RoutineEvent

    /** The step was done, or the look showed what is wanted. */
    data class Confirm(val stepId: String) : RoutineEvent

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
