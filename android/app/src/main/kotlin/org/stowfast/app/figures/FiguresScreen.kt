package org.stowfast.app.figures

import androidx.compose.foundation.lazy.LazyListScope
import androidx.compose.foundation.lazy.items
import androidx.compose.foundation.lazy.rememberLazyListState
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.runtime.collectAsState
import androidx.compose.runtime.getValue
import androidx.compose.ui.res.stringResource
import androidx.lifecycle.createSavedStateHandle
import androidx.lifecycle.viewmodel.compose.viewModel
import org.stowfast.app.R
import org.stowfast.app.share.figures
import org.stowfast.app.share.telling
import org.stowfast.app.ui.Beside
import org.stowfast.app.ui.FigureEntry
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.SectionHeading
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.WhenShown
import org.stowfast.app.ui.Working
import org.stowfast.app.ui.halves
import org.stowfast.app.ui.trouble
import org.stowfast.engine.FigureRow
import org.stowfast.engine.VehicleEngine

@Composable
fun FiguresRoute(engine: VehicleEngine, ways: Ways) {
    val model = viewModel(key = "figures") { FiguresViewModel(engine, createSavedStateHandle()) }
    val state by model.state.collectAsState()
    WhenShown(model) { model.onEvent(FiguresEvent.Shown) }
    FiguresScreen(state, ways, model::onEvent)
}

/** Every number that only the people on board can tell. */
@Composable
fun FiguresScreen(state: FiguresState, ways: Ways, onEvent: (FiguresEvent) -> Unit) {
    val (first, others) = halves(state.rows.orEmpty())
    val besides = rememberLazyListState()
    Page(
        stringResource(R.string.figures_heading),
        ways,
        trouble(state.problem) { onEvent(FiguresEvent.Dismiss) },
        told = telling(state.rows != null) { figures(state) },
        beside = others.takeIf { it.isNotEmpty() }?.let { Beside(besides) { rows(it, state.open, onEvent) } },
    ) {
        when {
            state.rows == null -> if (state.problem == null) item { Working() }
            first.isEmpty() -> item { Panel { Text(stringResource(R.string.figures_none), style = MaterialTheme.typography.bodyLarge) } }
            else -> rows(first, state.open, onEvent)
        }
    }
}

private fun LazyListScope.rows(rows: List<FigureRow>, open: String?, onEvent: (FiguresEvent) -> Unit) {
    for ((of, group) in rows.groupBy { it.ofText }) {
        item { SectionHeading(of) }
        items(group, key = { it.id }) { row ->
            FigureEntry(row, open == row.id, { onEvent(FiguresEvent.Open(row.id)) }) { onEvent(FiguresEvent.Tell(row.id, it)) }
        }
    }
}
