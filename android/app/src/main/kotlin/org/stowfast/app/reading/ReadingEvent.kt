package org.stowfast.app.reading

import org.stowfast.engine.GaugeUnit

sealed interface ReadingEvent {
    data object Shown : ReadingEvent

    /** The page was opened to read this gauge. */
    data class Begin(val gaugeId: String) : ReadingEvent

    data class Open(val gaugeId: String) : ReadingEvent

    data class Enter(val gaugeId: String, val unit: GaugeUnit, val value: Double) : ReadingEvent

    /** What only a person can tell. */
    data class Answer(val variable: String, val choiceId: String) : ReadingEvent

    data object Dismiss : ReadingEvent
}
