package org.stowfast.app.steps

import org.stowfast.engine.ActionRow
import org.stowfast.engine.Problem

/** [rows] is null until the engine has answered; in walking order. [sought] are the words that a row has to have. */
data class StepsState(val rows: List<ActionRow>?, val sought: String, val problem: Problem?)
