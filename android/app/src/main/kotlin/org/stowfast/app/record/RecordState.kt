package org.stowfast.app.record

import org.stowfast.engine.DoneRow
import org.stowfast.engine.Problem

/** [rows] is null until the engine has answered; newest first. */
data class RecordState(val rows: List<DoneRow>?, val problem: Problem?)
