package org.stowfast.app.theme

import android.content.SharedPreferences
import kotlinx.coroutines.flow.MutableStateFlow
import kotlinx.coroutines.flow.StateFlow

/** Keeps how the app looks in its own preferences. What cannot be read there leaves it to the phone. */
class ThemeStore(private val preferences: SharedPreferences) {
    private val chosen = MutableStateFlow(
        ThemeState(
            Brightness.entries.find { it.name == preferences.getString(BRIGHTNESS, null) } ?: Brightness.SYSTEM,
            Contrast.entries.find { it.name == preferences.getString(CONTRAST, null) } ?: Contrast.SYSTEM,
        ),
    )

    val state: StateFlow<ThemeState> = chosen

    fun choose(state: ThemeState) {
        preferences.edit().putString(BRIGHTNESS, state.brightness.name).putString(CONTRAST, state.contrast.name).apply()
        chosen.value = state
    }

    private companion object {
        const val BRIGHTNESS = "brightness"
        const val CONTRAST = "contrast"
    }
}
