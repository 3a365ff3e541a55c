package org.stowfast.app.figures

sealed interface FiguresEvent {
    data object Shown : FiguresEvent

    data class Open(val figureId: String) : FiguresEvent

    /** In the number's own unit; null where it is no longer known. */
    data class Tell(val figureId: String, val value: Double?) : FiguresEvent

    data object Dismiss : FiguresEvent
}
