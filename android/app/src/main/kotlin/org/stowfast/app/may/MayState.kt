package org.stowfast.app.may

import org.stowfast.engine.MayPage
import org.stowfast.engine.Problem

/** [page] is null until the engine has answered. */
data class MayState(val page: MayPage?, val problem: Problem?)
