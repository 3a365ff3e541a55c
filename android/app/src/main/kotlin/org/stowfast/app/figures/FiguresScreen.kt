package org.stowfast.app.figures

import androidx.annotation.StringRes
import androidx.compose.foundation.layout.fillMaxWidth
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
import androidx.compose.ui.semantics.contentDescription
import androidx.compose.ui.semantics.heading
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.unit.dp
import androidx.lifecycle.createSavedStateHandle
import androidx.lifecycle.viewmodel.compose.viewModel
import org.stowfast.app.R
import org.stowfast.app.share.figures
import org.stowfast.app.share.telling
import org.stowfast.app.ui.Beside
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.NumberField
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.QuietButton
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.WhenShown
import org.stowfast.app.ui.Working
import org.stowfast.app.ui.halves
import org.stowfast.app.ui.roles
import org.stowfast.app.ui.trouble
import org.stowfast.app.ui.written
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

private fun LazyListScope.rows(rows: List<FigureRow>, open: String?, onEvent: (FiguresEvent) -> Unit) =
    items(rows, key = { it.id }) { Figure(it, open = open == it.id, onEvent) }

@Composable
private fun Figure(row: FigureRow, open: Boolean, onEvent: (FiguresEvent) -> Unit) {
    val muted = MaterialTheme.colorScheme.onSurfaceVariant
    val known = row.valueText
    Panel(Modifier.testTag("figure-" + row.id)) {
        Marked(if (known == null) R.drawable.mark_unknown else R.drawable.ic_note, tint = (if (known == null) roles.unknown else roles.quiet).mark, size = 28.dp) {
            Text(row.title, Modifier.semantics { heading() }, style = MaterialTheme.typography.titleMedium)
            Text(known ?: stringResource(R.string.now_not_known), style = MaterialTheme.typography.headlineSmall)
            row.ageText?.let { Text(it, style = MaterialTheme.typography.bodyMedium, color = muted) }
        }
        Text(row.about, style = MaterialTheme.typography.bodyMedium)
        if (open) {
            val most = listOfNotNull(written(row.valueMax), row.unitText).joinToString(" ")
            val range = stringResource(R.string.figures_range, written(row.valueMin), most, written(row.valueStep))
            NumberField(row.id, stringResource(R.string.figures_number), range, row.unitText) { onEvent(FiguresEvent.Tell(row.id, it)) }
            if (known != null) Button(row, R.string.figures_forget, R.string.figures_forget_this, "forget-") { onEvent(FiguresEvent.Tell(row.id, null)) }
        } else {
            Button(row, R.string.figures_say, R.string.figures_say_this, "tell-") { onEvent(FiguresEvent.Open(row.id)) }
        }
    }
}

/** Each row has the same, so that its name tells which it is of. */
@Composable
private fun Button(row: FigureRow, @StringRes word: Int, @StringRes named: Int, tag: String, onClick: () -> Unit) {
    val name = stringResource(named, row.title)
    QuietButton(stringResource(word), onClick, Modifier.fillMaxWidth().testTag(tag + row.id).semantics { contentDescription = name })
}
