package org.stowfast.app.settings

import androidx.annotation.StringRes
import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.ExperimentalLayoutApi
import androidx.compose.foundation.layout.FlowRow
import androidx.compose.foundation.lazy.rememberLazyListState
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.runtime.collectAsState
import androidx.compose.runtime.getValue
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.heading
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.unit.dp
import androidx.lifecycle.viewmodel.compose.viewModel
import org.stowfast.app.R
import org.stowfast.app.theme.ThemeChoice
import org.stowfast.app.ui.Beside
import org.stowfast.app.ui.ChoiceButton
import org.stowfast.app.ui.Door
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.WhenShown
import org.stowfast.app.ui.trouble
import org.stowfast.engine.VehicleEngine

@Composable
fun SettingsRoute(engine: VehicleEngine, ways: Ways, onAbout: () -> Unit) {
    val model = viewModel(key = "settings") { SettingsViewModel(engine) }
    val state by model.state.collectAsState()
    WhenShown(model) { model.onEvent(SettingsEvent.Shown) }
    SettingsScreen(state, ways, onAbout, model::onEvent) { ThemeChoice() }
}

/** What is set for all vehicles alike: units, and the [look]. */
@Composable
fun SettingsScreen(state: SettingsState, ways: Ways, onAbout: () -> Unit, onEvent: (SettingsEvent) -> Unit, look: @Composable () -> Unit) {
    val besides = rememberLazyListState()
    Page(
        stringResource(R.string.settings_heading),
        ways,
        trouble(state.problem) { onEvent(SettingsEvent.Dismiss) },
        beside = Beside(besides) {
            item(key = "look") { look() }
            item(key = "about") { Door(R.drawable.ic_question, R.string.about_heading, stringResource(R.string.about_door), "about", onClick = onAbout) }
        },
    ) {
        item(key = "units") {
            val words = UNITS.map { (id, word) -> id to stringResource(word) }
            Choice(R.string.settings_units, R.string.settings_units_about, "units", words, state.units) {
                onEvent(SettingsEvent.ChooseUnits(it))
            }
        }
        state.reminds?.let { rows ->
            item(key = "remind") {
                val words = rows.map { it.hours.toString() to it.text }
                val chosen = rows.find { it.chosen }?.hours?.toString()
                Choice(R.string.settings_remind, R.string.settings_remind_about, "remind", words, chosen) {
                    onEvent(SettingsEvent.ChooseReminding(it.toLong()))
                }
            }
        }
    }
}

/** The engine's name of each choice, and its word. */
private val UNITS = listOf("metric" to R.string.settings_metric, "imperial" to R.string.settings_imperial)

/** One thing to choose: what it is, what it changes, and the choices. */
@OptIn(ExperimentalLayoutApi::class)
@Composable
private fun Choice(
    @StringRes title: Int,
    @StringRes about: Int,
    tag: String,
    choices: List<Pair<String, String>>,
    chosen: String?,
    onChoose: (String) -> Unit,
) {
    Panel(Modifier.testTag(tag)) {
        Text(stringResource(title), Modifier.semantics { heading() }, style = MaterialTheme.typography.titleMedium)
        Text(stringResource(about), style = MaterialTheme.typography.bodyLarge)
        FlowRow(horizontalArrangement = Arrangement.spacedBy(8.dp), verticalArrangement = Arrangement.spacedBy(8.dp)) {
            for ((id, word) in choices) {
                ChoiceButton(word, id == chosen, { onChoose(id) }, Modifier.testTag("$tag-$id"))
            }
        }
    }
}
