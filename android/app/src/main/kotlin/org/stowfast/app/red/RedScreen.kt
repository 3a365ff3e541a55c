package org.stowfast.app.red

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
import org.stowfast.app.share.red
import org.stowfast.app.share.telling
import org.stowfast.app.ui.Beside
import org.stowfast.app.ui.Door
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.SectionHeading
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.WhenShown
import org.stowfast.app.ui.Working
import org.stowfast.app.ui.look
import org.stowfast.app.ui.showsNow
import org.stowfast.app.ui.trouble
import org.stowfast.app.ui.word
import org.stowfast.engine.AlertRow
import org.stowfast.engine.Shown
import org.stowfast.engine.VehicleEngine

@Composable
fun RedRoute(engine: VehicleEngine, ways: Ways, onFaults: () -> Unit, onOpen: (String) -> Unit) {
    val model = viewModel(key = "red") { RedViewModel(engine) }
    val state by model.state.collectAsState()
    WhenShown(model) { model.onEvent(RedEvent.Shown) }
    RedScreen(state, ways, onFaults, onOpen, model::onEvent)
}

/** All that this vehicle can show red: what shows now, then each drawn by its subject, where it is seen or heard. */
@Composable
fun RedScreen(state: RedState, ways: Ways, onFaults: () -> Unit, onOpen: (String) -> Unit, onEvent: (RedEvent) -> Unit) {
    val besides = rememberLazyListState()
    val (now, others) = state.rows.orEmpty().partition { it.showsNow() }
    Page(
        stringResource(R.string.red_heading),
        ways,
        trouble(state.problem) { onEvent(RedEvent.Dismiss) },
        told = telling(state.rows != null) { red(state) },
        beside = Beside(besides) {
            when {
                state.rows == null -> if (state.problem == null) item { Working() }
                state.rows.isEmpty() -> item { Text(stringResource(R.string.red_none), style = MaterialTheme.typography.bodyLarge) }
                else -> for ((seen, rows) in others.groupBy { it.seen }) {
                    item { SectionHeading(stringResource(seen.heading())) }
                    items(rows, key = { it.id }) { row -> Alert(row) { onOpen(row.id) } }
                }
            }
        },
    ) {
        item { Text(stringResource(R.string.red_about), style = MaterialTheme.typography.bodyLarge) }
        items(now, key = { it.id }) { row -> Alert(row) { onOpen(row.id) } }
        item { Door(R.drawable.ic_fault, R.string.faults_heading, stringResource(R.string.faults_door), "faults", onClick = onFaults) }
    }
}

/** Only what must show has colour: what may, or cannot, stays plain. */
@Composable
private fun Alert(row: AlertRow, onClick: () -> Unit) {
    val look = row.look()
    Panel(
        Modifier.testTag("alert-" + row.id),
        tone = look.tone.takeIf { row.shown == Shown.YES },
        onClick = onClick,
        end = R.drawable.ic_forward,
    ) {
        Marked(row.symbol.drawn(), tint = look.tone.mark, size = 40.dp, gap = 16.dp) {
            Text(row.title, style = MaterialTheme.typography.titleMedium)
            Text(row.sign, style = MaterialTheme.typography.bodyLarge)
            Marked(look.mark, tint = look.tone.mark, size = 16.dp, gap = 8.dp) {
                Text(stringResource(R.string.red_where, stringResource(row.word()), row.zoneTitle), style = MaterialTheme.typography.bodyMedium)
            }
        }
    }
}
