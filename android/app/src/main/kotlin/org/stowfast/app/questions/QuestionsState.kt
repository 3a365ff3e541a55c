package org.stowfast.app.questions

import org.stowfast.engine.Problem
import org.stowfast.engine.ReckoningRow

/** [rows] is null until the engine has answered. */
data class QuestionsState(val rows: List<ReckoningRow>?, val problem: Problem?)
