package org.stowfast.app.level

sealed interface LevelEvent {
    data object Shown : LevelEvent

    /** What is shown is held, or follows the phone again. */
    data object Hold : LevelEvent

    /** The vehicle stands level, and the phone lies as it will. */
    data object Set : LevelEvent

    data object Forget : LevelEvent

    data object Dismiss : LevelEvent
}
