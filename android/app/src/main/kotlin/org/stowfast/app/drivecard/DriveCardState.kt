package org.stowfast.app.drivecard

import org.stowfast.engine.DriveCardPage
import org.stowfast.engine.Problem

/** [page] is null until the engine has answered. */
data class DriveCardState(val page: DriveCardPage?, val problem: Problem?)
