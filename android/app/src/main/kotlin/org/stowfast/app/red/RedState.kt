package org.stowfast.app.red

import org.stowfast.engine.AlertRow
import org.stowfast.engine.Problem

/** [rows] is null until the engine has answered; what shows and is not as it should be comes first. */
data class RedState(val rows: List<AlertRow>?, val problem: Problem?)
