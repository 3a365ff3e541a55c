package org.stowfast.app.steps

import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.Column
import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.foundation.lazy.itemsIndexed
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.OutlinedTextField
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.runtime.collectAsState
import androidx.compose.runtime.getValue
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.unit.dp
import androidx.lifecycle.viewmodel.compose.viewModel
import org.stowfast.app.R
import org.stowfast.app.may.Move
import org.stowfast.app.share.steps
import org.stowfast.app.share.telling
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.SectionHeading
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.WhenShown
import org.stowfast.app.ui.Working
import org.stowfast.app.ui.trouble
import org.stowfast.engine.ActionRow
import org.stowfast.engine.VehicleEngine

@Composable
fun StepsRoute(engine: VehicleEngine, ways: Ways, onAsk: (String) -> Unit) {
    val model = viewModel(key = "steps") { StepsViewModel(engine) }
    val state by model.state.collectAsState()
    WhenShown(model) { model.onEvent(StepsEvent.Shown) }
    StepsScreen(state, ways, onAsk, model::onEvent)
}

/** Everything that can be done or looked at in this vehicle, whether a plan has it or not. */
@Composable
fun StepsScreen(state: StepsState, ways: Ways, onAsk: (String) -> Unit, onEvent: (StepsEvent) -> Unit) {
    val found = state.found()
    Page(stringResource(R.string.steps_heading), ways, trouble(state.problem) { onEvent(StepsEvent.Dismiss) }, told = telling(state.rows != null) { steps(state) }) {
        item { Text(stringResource(R.string.steps_about), style = MaterialTheme.typography.bodyLarge) }
        item {
            OutlinedTextField(
                state.sought,
                { onEvent(StepsEvent.Seek(it)) },
                Modifier.fillMaxWidth().testTag("seek"),
                textStyle = MaterialTheme.typography.bodyLarge,
                label = { Text(stringResource(R.string.steps_seek)) },
                singleLine = true,
            )
        }
        when {
            state.rows == null -> if (state.problem == null) item { Working() }
            found.isEmpty() -> item { Text(stringResource(R.string.steps_none), style = MaterialTheme.typography.bodyLarge) }
        }
        itemsIndexed(found, key = { _, row -> row.id }) { index, row ->
            Column(verticalArrangement = Arrangement.spacedBy(8.dp)) {
                if (index == 0 || found[index - 1].zoneId != row.zoneId) SectionHeading(row.zoneTitle)
                Move(row.id, row.kind, row.text, row = null, onAsk)
            }
        }
    }
}

/** The rows that have every word that is sought, of the step or of its place. */
fun StepsState.found(): List<ActionRow> {
    val words = sought.trim().lowercase().split(' ')
    return rows.orEmpty().filter { row -> words.all { it in row.text.lowercase() || it in row.zoneTitle.lowercase() } }
}
