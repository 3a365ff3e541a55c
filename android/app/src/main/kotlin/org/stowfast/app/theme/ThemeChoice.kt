package org.stowfast.app.theme

import androidx.annotation.StringRes
import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.ExperimentalLayoutApi
import androidx.compose.foundation.layout.FlowRow
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.runtime.collectAsState
import androidx.compose.runtime.getValue
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.LocalContext
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.heading
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.unit.dp
import androidx.lifecycle.viewmodel.compose.viewModel
import org.stowfast.app.R
import org.stowfast.app.StowfastApp
import org.stowfast.app.ui.ChoiceButton
import org.stowfast.app.ui.Panel

/** How the app looks, with its own model: it can stand on any page. */
@Composable
fun ThemeChoice() {
    val app = LocalContext.current.applicationContext as StowfastApp
    val model = viewModel(key = "theme") { ThemeViewModel(app.theme) }
    val state by model.state.collectAsState()
    ThemeChoice(state, model::onEvent)
}

@Composable
fun ThemeChoice(state: ThemeState, onEvent: (ThemeEvent) -> Unit) {
    Panel(Modifier.testTag("theme")) {
        Group(R.string.theme_brightness) {
            for (one in Brightness.entries) {
                ChoiceButton(stringResource(one.word), one == state.brightness, { onEvent(ThemeEvent.Brighten(one)) }, Modifier.testTag("brightness-$one"))
            }
        }
        Group(R.string.theme_contrast) {
            for (one in Contrast.entries) {
                ChoiceButton(stringResource(one.word), one == state.contrast, { onEvent(ThemeEvent.StandOut(one)) }, Modifier.testTag("contrast-$one"))
            }
        }
    }
}

@OptIn(ExperimentalLayoutApi::class)
@Composable
private fun Group(@StringRes title: Int, choices: @Composable () -> Unit) {
    Text(stringResource(title), Modifier.semantics { heading() }, style = MaterialTheme.typography.titleMedium)
    FlowRow(horizontalArrangement = Arrangement.spacedBy(8.dp), verticalArrangement = Arrangement.spacedBy(8.dp)) { choices() }
}
