package org.stowfast.app.things

import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.Column
import androidx.compose.foundation.lazy.itemsIndexed
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.runtime.collectAsState
import androidx.compose.runtime.getValue
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.selected
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.semantics.stateDescription
import androidx.compose.ui.unit.dp
import androidx.lifecycle.viewmodel.compose.viewModel
import org.stowfast.app.R
import org.stowfast.app.share.things
import org.stowfast.app.share.telling
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.SectionHeading
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.WhenShown
import org.stowfast.app.ui.roles
import org.stowfast.app.ui.trouble
import org.stowfast.engine.ThingRow
import org.stowfast.engine.VehicleEngine

@Composable
fun ThingsRoute(engine: VehicleEngine, ways: Ways) {
    val model = viewModel(key = "things") { ThingsViewModel(engine) }
    val state by model.state.collectAsState()
    WhenShown(model) { model.onEvent(ThingsEvent.Shown) }
    ThingsScreen(state, ways, model::onEvent)
}

/** All that something can be said of, by zone. One tap opens a thing, the next says how it is. */
@Composable
fun ThingsScreen(state: ThingsState, ways: Ways, onEvent: (ThingsEvent) -> Unit) {
    val rows = state.rows.orEmpty()
    Page(stringResource(R.string.things_heading), ways, trouble(state.problem) { onEvent(ThingsEvent.Dismiss) }, told = telling(state.rows != null) { things(state) }) {
        item { Text(stringResource(R.string.things_about), style = MaterialTheme.typography.bodyLarge) }
        itemsIndexed(rows, key = { _, row -> row.variable }) { index, row ->
            Column(verticalArrangement = Arrangement.spacedBy(8.dp)) {
                if (index == 0 || rows[index - 1].zoneId != row.zoneId) SectionHeading(row.zoneTitle)
                Thing(row, state.open == row.variable, onEvent)
            }
        }
    }
}

@Composable
private fun Thing(row: ThingRow, open: Boolean, onEvent: (ThingsEvent) -> Unit) {
    val said = stringResource(if (open) R.string.routine_opened else R.string.routine_shut)
    val muted = MaterialTheme.colorScheme.onSurfaceVariant
    Panel(
        Modifier.testTag("thing-" + row.variable).semantics { stateDescription = said },
        onClick = { onEvent(ThingsEvent.Open(row.variable)) },
        end = if (open) R.drawable.ic_up else R.drawable.ic_down,
    ) {
        Text(row.title, style = MaterialTheme.typography.titleMedium)
        Text(row.currentText, style = MaterialTheme.typography.bodyLarge)
        row.ageText?.let { Text(it, style = MaterialTheme.typography.bodyMedium, color = muted) }
    }
    if (open) {
        for (choice in row.choices) {
            val now = row.believed.singleOrNull() == choice.id
            Panel(
                Modifier.testTag("say-${row.variable}-${choice.id}").semantics { selected = now },
                tone = roles.quiet,
                onClick = { onEvent(ThingsEvent.Report(row.variable, choice.id)) },
            ) {
                Marked(if (now) R.drawable.ic_do else R.drawable.ic_todo, tint = roles.quiet.mark) {
                    Text(choice.text, style = MaterialTheme.typography.titleMedium)
                }
            }
        }
    }
}
