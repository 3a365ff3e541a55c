package org.stowfast.app

import androidx.compose.runtime.Composable
import androidx.compose.ui.res.stringResource
import org.stowfast.app.theme.Brightness
import org.stowfast.app.theme.Contrast
import org.stowfast.app.theme.ThemeChoice
import org.stowfast.app.theme.ThemeState
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Ways

/** The choice of how the app looks, wherever it stands. As in [States]. */
object ThemeStates {
    fun screens(ways: Ways): Map<String, @Composable () -> Unit> = mapOf(
        "theme" to { Page(stringResource(R.string.theme_heading), ways) { item { chosen() } } },
        "theme-chosen" to {
            Page(stringResource(R.string.theme_heading), ways) { item { ThemeChoice(ThemeState(Brightness.DARK, Contrast.HIGH)) {} } }
        },
    )

    @Composable
    fun chosen() = ThemeChoice(ThemeState(Brightness.SYSTEM, Contrast.SYSTEM)) {}
}
