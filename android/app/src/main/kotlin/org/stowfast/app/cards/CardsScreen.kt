package org.stowfast.app.cards

import androidx.compose.foundation.lazy.items
import androidx.compose.material3.MaterialTheme
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
import org.stowfast.app.share.cards
import org.stowfast.app.share.telling
import org.stowfast.app.ui.Door
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.WhenShown
import org.stowfast.app.ui.Working
import org.stowfast.app.ui.trouble
import org.stowfast.engine.CardRow
import org.stowfast.engine.VehicleEngine

@Composable
fun CardsRoute(engine: VehicleEngine, ways: Ways, onSteps: () -> Unit, onOpen: (String) -> Unit) {
    val model = viewModel(key = "cards") { CardsViewModel(engine) }
    val state by model.state.collectAsState()
    WhenShown(model) { model.onEvent(CardsEvent.Shown) }
    CardsScreen(state, ways, onSteps, onOpen, model::onEvent)
}

/** Every fitting of this vehicle, each with its card, and the way to any of its steps. */
@Composable
fun CardsScreen(state: CardsState, ways: Ways, onSteps: () -> Unit, onOpen: (String) -> Unit, onEvent: (CardsEvent) -> Unit) {
    Page(stringResource(R.string.cards_heading), ways, trouble(state.problem) { onEvent(CardsEvent.Dismiss) }, told = telling(state.rows != null) { cards(state) }) {
        item { Door(R.drawable.ic_question, R.string.steps_heading, stringResource(R.string.steps_door), "steps", onSteps) }
        when {
            state.rows == null -> if (state.problem == null) item { Working() }
            state.rows.isEmpty() -> item { Text(stringResource(R.string.cards_none), style = MaterialTheme.typography.bodyLarge) }
            else -> items(state.rows, key = { it.id }) { row -> Card(row) { onOpen(row.id) } }
        }
    }
}

@Composable
private fun Card(row: CardRow, onClick: () -> Unit) {
    Panel(Modifier.testTag("card-" + row.id), onClick = onClick, end = R.drawable.ic_forward) {
        Marked(R.drawable.ic_card, size = 28.dp) {
            Text(row.title, style = MaterialTheme.typography.titleMedium)
            Text(row.zoneTitle, style = MaterialTheme.typography.bodyMedium, color = MaterialTheme.colorScheme.onSurfaceVariant)
        }
    }
}
