package org.stowfast.app.faults

import org.stowfast.engine.FaultRow
import org.stowfast.engine.Problem

/** [rows] is null until the engine has answered. */
data class FaultsState(val rows: List<FaultRow>?, val problem: Problem?)
