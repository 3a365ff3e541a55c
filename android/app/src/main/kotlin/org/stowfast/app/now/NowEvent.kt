package org.stowfast.app.now

sealed interface NowEvent {
    data object Shown : NowEvent

    data object Choose : NowEvent

    data object ChooseNothing : NowEvent

    data class Open(val targetId: String) : NowEvent

    data object Resume : NowEvent

    data object Left : NowEvent

    data object Dismiss : NowEvent
}
