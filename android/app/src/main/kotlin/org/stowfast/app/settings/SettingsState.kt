package org.stowfast.app.settings

import org.stowfast.engine.Problem

/** [units] is what quantities are written in, `metric` or `imperial`; null until the engine has answered. */
data class SettingsState(val units: String?, val problem: Problem?)
