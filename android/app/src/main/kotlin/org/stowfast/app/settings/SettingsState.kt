package org.stowfast.app.settings

import org.stowfast.engine.Problem
import org.stowfast.engine.RemindChoice

/**
 * [units] is what quantities are written in, `metric` or `imperial`, [reminds] how long before something runs out it is told:
 * both null until the engine has answered.
 */
data class SettingsState(val units: String?, val reminds: List<RemindChoice>?, val problem: Problem?)
