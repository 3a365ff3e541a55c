package org.stowfast.app.cards

import androidx.compose.foundation.lazy.LazyListScope
import androidx.compose.foundation.lazy.items
import androidx.compose.foundation.lazy.rememberLazyListState
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.runtime.collectAsState
import androidx.compose.runtime.getValue
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.unit.dp
import androidx.lifecycle.createSavedStateHandle
import androidx.lifecycle.viewmodel.compose.viewModel
import kotlinx.coroutines.Dispatchers
import org.stowfast.app.R
import org.stowfast.app.share.cards
import org.stowfast.app.share.telling
import org.stowfast.app.ui.Beside
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

/** Where the page of all cards leads on to, by a row or by what was found. */
data class CardsWays(
    val steps: () -> Unit,
    val card: (String) -> Unit,
    val alert: (String) -> Unit,
    val fault: (String) -> Unit,
    val preview: (String) -> Unit,
    val question: (String) -> Unit,
)

@Composable
fun CardsRoute(engine: VehicleEngine, ways: Ways, on: CardsWays) {
    val model = viewModel(key = "cards") { CardsViewModel(engine, createSavedStateHandle()) }
    // At once: a letter must stand in the field before the next one is typed.
    val state by model.state.collectAsState(Dispatchers.Main.immediate)
    WhenShown(model) { model.onEvent(CardsEvent.Shown) }
    CardsScreen(state, ways, on, model::onEvent)
}

/** Every fitting of this vehicle, each with its card, and the way to any of its steps; or what the owner's words may mean. */
@Composable
fun CardsScreen(state: CardsState, ways: Ways, on: CardsWays, onEvent: (CardsEvent) -> Unit) {
    val list = rememberLazyListState()
    val besides = rememberLazyListState()
    val seek: (String) -> Unit = { words ->
        list.requestScrollToItem(0)
        besides.requestScrollToItem(0)
        onEvent(CardsEvent.Seek(words))
    }
    Page(
        stringResource(R.string.cards_heading),
        ways,
        trouble(state.problem) { onEvent(CardsEvent.Dismiss) },
        list,
        told = telling(state.rows != null) { cards(state) },
        beside = Beside(besides) {
            when {
                state.rows == null -> if (state.problem == null) item { Working() }
                state.asked.isBlank() -> all(state.rows, on)
                state.found == null -> if (state.problem == null) item { Working() }
                state.found.isEmpty() -> item(key = "nothing") { Nothing() }
                else -> items(state.found, key = { "hit-${it.kind}-${it.id}" }) { row -> Hit(row, on, ways.emergency) }
            }
        },
    ) {
        item(key = "seek") { Seek(state.asked, seek) }
        if (state.rows != null && state.asked.isBlank()) {
            item(key = "steps") { Door(R.drawable.ic_question, R.string.steps_heading, stringResource(R.string.steps_door), "steps", onClick = on.steps) }
        }
    }
}

private fun LazyListScope.all(rows: List<CardRow>, on: CardsWays) {
    if (rows.isEmpty()) item { Text(stringResource(R.string.cards_none), style = MaterialTheme.typography.bodyLarge) }
    items(rows, key = { it.id }) { row -> Card(row) { on.card(row.id) } }
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
