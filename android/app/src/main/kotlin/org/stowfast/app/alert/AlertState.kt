package org.stowfast.app.alert

import org.stowfast.engine.AlertPage
import org.stowfast.engine.Problem

/**
 * [page] is null until the engine has answered. [planned] are the steps of the routine under way: only to these is there
 * a way. [reports] counts what was said from this page.
 */
data class AlertState(val page: AlertPage?, val planned: Set<String>, val reports: Int, val problem: Problem?)
