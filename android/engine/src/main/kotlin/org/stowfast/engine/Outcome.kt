package org.stowfast.engine

/** What a call came to. The engine never throws across the fence. */
sealed interface Outcome<out T> {
    data class Done<T>(val value: T) : Outcome<T>

    data class Failed(val problem: Problem) : Outcome<Nothing>
}

/** Why a call failed. Each variant has its own words in the app. */
sealed interface Problem {
    data class InvalidInput(val field: String, val detail: String) : Problem

    data class NotFound(val kind: String, val id: String) : Problem

    data class Conflict(val detail: String) : Problem

    data class BrokenPack(val file: String, val line: Int, val expected: String) : Problem

    /** Text that was cut in the middle of a character, as an emoji may be, reaches no engine. Nothing was changed. */
    data object HalfLetter : Problem

    data object StorageFull : Problem

    data class StorageDamaged(val keptPath: String) : Problem

    data class NewerDatabase(val found: Long, val supported: Long) : Problem

    /** [detail] is for a report, never for the screen. */
    data class Internal(val detail: String) : Problem
}
