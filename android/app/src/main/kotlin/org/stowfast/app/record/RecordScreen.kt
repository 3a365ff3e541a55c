package org.stowfast.app.record

import android.content.Context
import android.text.format.DateUtils
import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.foundation.layout.padding
import androidx.compose.foundation.lazy.items
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.runtime.collectAsState
import androidx.compose.runtime.getValue
import androidx.compose.runtime.mutableStateOf
import androidx.compose.runtime.saveable.rememberSaveable
import androidx.compose.runtime.setValue
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.LocalContext
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.semantics.stateDescription
import androidx.compose.ui.text.style.TextDecoration
import androidx.compose.ui.unit.dp
import androidx.lifecycle.viewmodel.compose.viewModel
import org.stowfast.app.R
import org.stowfast.app.share.record
import org.stowfast.app.share.telling
import org.stowfast.app.ui.MainButton
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.NoteQuestion
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.QuietButton
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.WhenShown
import org.stowfast.app.ui.Writing
import org.stowfast.app.ui.trouble
import org.stowfast.engine.DoneRow
import org.stowfast.engine.VehicleEngine

@Composable
fun RecordRoute(engine: VehicleEngine, ways: Ways, onPreview: (String) -> Unit) {
    val model = viewModel(key = "record") { RecordViewModel(engine) }
    val state by model.state.collectAsState()
    WhenShown(model) { model.onEvent(RecordEvent.Shown) }
    RecordScreen(state, ways, onPreview, model::onEvent)
}

/** [onPreview] is given what the engine knows the way back by. */
@Composable
fun RecordScreen(state: RecordState, ways: Ways, onPreview: (String) -> Unit, onEvent: (RecordEvent) -> Unit) {
    var writing by rememberSaveable { mutableStateOf(false) }
    if (writing) {
        val close = { writing = false }
        return Writing(NoteQuestion, ways, { close(); onEvent(RecordEvent.Note(it)) }, close)
    }
    Page(
        stringResource(R.string.record_heading),
        ways,
        trouble(state.problem) { onEvent(RecordEvent.Dismiss) },
        bottom = { MainButton(stringResource(R.string.note_heading), { writing = true }, icon = R.drawable.ic_note) },
        told = telling(state.rows != null) { record(state) },
    ) {
        if (state.rows?.isEmpty() == true) {
            item { Panel { Text(stringResource(R.string.record_none), style = MaterialTheme.typography.bodyLarge) } }
        }
        items(state.rows.orEmpty(), key = { it.entry }) { Line(it, state.open == it.entry, onPreview, onEvent) }
        if (state.more) {
            item { QuietButton(stringResource(R.string.record_older), { onEvent(RecordEvent.Older) }, Modifier.fillMaxWidth().testTag("older")) }
        }
    }
}

/** One line of the record. What was taken back is struck out, and says so. A tap shows what can be done about it. */
@Composable
private fun Line(row: DoneRow, open: Boolean, onPreview: (String) -> Unit, onEvent: (RecordEvent) -> Unit) {
    val time = LocalContext.current.time(row)
    val said = stringResource(if (open) R.string.routine_opened else R.string.routine_shut)
    Panel(
        Modifier.testTag("row-${row.entry}").semantics { stateDescription = said },
        onClick = { onEvent(RecordEvent.Open(row.entry)) },
        end = if (open) R.drawable.ic_up else R.drawable.ic_down,
    ) {
        Text(
            if (row.voided) stringResource(R.string.record_voided, time) else time,
            style = MaterialTheme.typography.labelMedium,
            color = MaterialTheme.colorScheme.onSurfaceVariant,
        )
        Text(
            row.text,
            style = MaterialTheme.typography.bodyLarge,
            textDecoration = if (row.voided) TextDecoration.LineThrough else null,
        )
    }
    if (open) {
        Panel(Modifier.padding(top = 8.dp).testTag("back"), onClick = { onPreview(BACK + row.entry) }, end = R.drawable.ic_forward) {
            Marked(R.drawable.ic_route, size = 26.dp) {
                Text(stringResource(R.string.record_back), style = MaterialTheme.typography.titleMedium)
                Text(stringResource(R.string.record_back_about), style = MaterialTheme.typography.bodyMedium)
            }
        }
        if (!row.voided) {
            Panel(Modifier.padding(top = 8.dp).testTag("take-back"), onClick = { onEvent(RecordEvent.TakeBack(row.entry)) }) {
                Marked(R.drawable.ic_undo, size = 26.dp) {
                    Text(stringResource(R.string.record_take_back), style = MaterialTheme.typography.titleMedium)
                    Text(stringResource(R.string.record_take_back_about), style = MaterialTheme.typography.bodyMedium)
                }
            }
        }
    }
}

/** What the engine knows the way to how things were before an entry by. */
private const val BACK = "back/"

/** When something was recorded. */
fun Context.time(row: DoneRow): String = DateUtils.formatDateTime(this, row.atUtcMs, TIME)

private const val TIME = DateUtils.FORMAT_SHOW_DATE or DateUtils.FORMAT_SHOW_TIME or DateUtils.FORMAT_ABBREV_MONTH
