package org.stowfast.app.record

import org.stowfast.engine.DoneRow
import org.stowfast.engine.Problem

/**
 * [rows] is null until the engine has answered; newest first. [more] tells that older ones may be had.
 * [open] is the entry that something is done about.
 */
data class RecordState(val rows: List<DoneRow>?, val more: Boolean, val open: Long?, val problem: Problem?)
