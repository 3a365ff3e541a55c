package org.stowfast.app.theme

sealed interface ThemeEvent {
    data class Brighten(val to: Brightness) : ThemeEvent

    data class StandOut(val to: Contrast) : ThemeEvent
}
