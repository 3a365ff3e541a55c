package org.stowfast.app.theme

import androidx.lifecycle.ViewModel
import kotlinx.coroutines.flow.StateFlow

class ThemeViewModel(private val store: ThemeStore) : ViewModel() {
    val state: StateFlow<ThemeState> = store.state

    fun onEvent(event: ThemeEvent) {
        val now = store.state.value
        store.choose(
            when (event) {
                is ThemeEvent.Brighten -> now.copy(brightness = event.to)
                is ThemeEvent.StandOut -> now.copy(contrast = event.to)
            },
        )
    }
}
