package org.stowfast.app.figures

import org.stowfast.engine.FigureRow
import org.stowfast.engine.Problem

/** [rows] is null until the engine has answered. [open] is the number that is being told. */
data class FiguresState(val rows: List<FigureRow>?, val open: String?, val problem: Problem?)
