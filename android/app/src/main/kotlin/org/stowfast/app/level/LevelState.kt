package org.stowfast.app.level

import org.stowfast.engine.LevelPage
import org.stowfast.engine.Problem

/** [page] is null until the phone has felt anything; where [sensor] is not there it stays so. A [held] page follows no more. */
data class LevelState(val page: LevelPage?, val sensor: Boolean, val held: Boolean, val problem: Problem?)
