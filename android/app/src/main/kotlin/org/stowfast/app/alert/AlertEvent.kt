package org.stowfast.app.alert

import org.stowfast.engine.ReportRow

sealed interface AlertEvent {
    data object Shown : AlertEvent

    data class Report(val row: ReportRow) : AlertEvent

    data object Dismiss : AlertEvent
}
