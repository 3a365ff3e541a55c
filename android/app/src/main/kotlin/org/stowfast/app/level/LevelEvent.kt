package org.stowfast.app.level

sealed interface LevelEvent {
    /** Somebody came to the page: what was held before is of another time, or of another vehicle. */
    data object Opened : LevelEvent

    data object Shown : LevelEvent

    /** What is shown is held, or follows the phone again. */
    data object Hold : LevelEvent

    /** The vehicle stands level, and the phone lies as it will. */
    data object Set : LevelEvent

    data object Forget : LevelEvent

    data object Dismiss : LevelEvent
}
