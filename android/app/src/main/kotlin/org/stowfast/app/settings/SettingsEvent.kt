package org.stowfast.app.settings

sealed interface SettingsEvent {
    data object Shown : SettingsEvent

    data class ChooseUnits(val units: String) : SettingsEvent

    data class ChooseReminding(val hours: Long) : SettingsEvent

    data object Dismiss : SettingsEvent
}
