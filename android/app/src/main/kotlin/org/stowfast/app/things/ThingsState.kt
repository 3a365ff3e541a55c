package org.stowfast.app.things

import org.stowfast.engine.Problem
import org.stowfast.engine.ThingRow

/** [rows] is null until the engine has answered; in walking order. [open] is the thing that something is said of. */
data class ThingsState(val rows: List<ThingRow>?, val open: String?, val problem: Problem?)
