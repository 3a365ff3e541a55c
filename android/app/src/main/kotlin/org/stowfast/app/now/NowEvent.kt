package org.stowfast.app.now

import org.stowfast.engine.ItemRow

sealed interface NowEvent {
    data object Shown : NowEvent

    /** To the last page before the road. */
    data object Leave : NowEvent

    data object DriveOff : NowEvent

    /** Somebody says how a danger stands. */
    data class Say(val variable: String, val setting: String) : NowEvent

    /** A thing in the way to [targetId] was tapped; null is the road. */
    data class Inspect(val item: ItemRow, val targetId: String?) : NowEvent

    /** What could not be moved moves again. */
    data class Freed(val entry: Long) : NowEvent

    /** To the step that deals with what is opened. */
    data object GoToStep : NowEvent

    /** Back to the first page. */
    data object Home : NowEvent

    data object Resume : NowEvent

    data object Left : NowEvent

    data object Dismiss : NowEvent
}
