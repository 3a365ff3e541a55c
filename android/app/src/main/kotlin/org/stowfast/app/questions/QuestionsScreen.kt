package org.stowfast.app.questions

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
import androidx.lifecycle.viewmodel.compose.viewModel
import org.stowfast.app.R
import org.stowfast.app.share.questions
import org.stowfast.app.share.telling
import org.stowfast.app.ui.Beside
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.WhenShown
import org.stowfast.app.ui.Working
import org.stowfast.app.ui.halves
import org.stowfast.app.ui.trouble
import org.stowfast.engine.ReckoningRow
import org.stowfast.engine.VehicleEngine

@Composable
fun QuestionsRoute(engine: VehicleEngine, ways: Ways, ask: (String) -> Unit) {
    val model = viewModel(key = "questions") { QuestionsViewModel(engine) }
    val state by model.state.collectAsState()
    WhenShown(model) { model.onEvent(QuestionsEvent.Shown) }
    QuestionsScreen(state, ways, ask, model::onEvent)
}

/** Every question of numbers that this vehicle can be asked. [ask] is given the one that is meant. */
@Composable
fun QuestionsScreen(state: QuestionsState, ways: Ways, ask: (String) -> Unit, onEvent: (QuestionsEvent) -> Unit) {
    val (first, others) = halves(state.rows.orEmpty())
    val besides = rememberLazyListState()
    Page(
        stringResource(R.string.reckon_heading),
        ways,
        trouble(state.problem) { onEvent(QuestionsEvent.Dismiss) },
        told = telling(state.rows != null) { questions(state) },
        beside = others.takeIf { it.isNotEmpty() }?.let { Beside(besides) { rows(it, ask) } },
    ) {
        if (state.rows == null && state.problem == null) item { Working() }
        rows(first, ask)
    }
}

private fun LazyListScope.rows(rows: List<ReckoningRow>, ask: (String) -> Unit) = items(rows, key = { it.id }) { row ->
    Panel(Modifier.testTag("ask-" + row.id), onClick = { ask(row.id) }, end = R.drawable.ic_forward) {
        Marked(row.drawn(), size = 28.dp) {
            Text(row.title, style = MaterialTheme.typography.titleMedium)
            Text(row.about, style = MaterialTheme.typography.bodyMedium, color = MaterialTheme.colorScheme.onSurfaceVariant)
        }
    }
}
