package org.stowfast.app.fault

import org.stowfast.engine.FaultPage
import org.stowfast.engine.Problem

/** [page] is null until the engine has answered. [answers] counts what was said from this page. */
data class FaultState(val page: FaultPage?, val answers: Int, val problem: Problem?)
