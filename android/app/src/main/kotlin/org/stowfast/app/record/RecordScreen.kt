package org.stowfast.app.record

import android.text.format.DateUtils
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
import androidx.compose.ui.text.style.TextDecoration
import androidx.lifecycle.viewmodel.compose.viewModel
import org.stowfast.app.R
import org.stowfast.app.ui.MainButton
import org.stowfast.app.ui.NoteQuestion
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.WhenShown
import org.stowfast.app.ui.Writing
import org.stowfast.app.ui.trouble
import org.stowfast.engine.DoneRow
import org.stowfast.engine.VehicleEngine

@Composable
fun RecordRoute(engine: VehicleEngine, ways: Ways) {
    val model = viewModel(key = "record") { RecordViewModel(engine) }
    val state by model.state.collectAsState()
    WhenShown(model) { model.onEvent(RecordEvent.Shown) }
    RecordScreen(state, ways, model::onEvent)
}

@Composable
fun RecordScreen(state: RecordState, ways: Ways, onEvent: (RecordEvent) -> Unit) {
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
    ) {
        if (state.rows?.isEmpty() == true) {
            item { Panel { Text(stringResource(R.string.record_none), style = MaterialTheme.typography.bodyLarge) } }
        }
        items(state.rows.orEmpty(), key = { it.entry }) { Line(it) }
    }
}

/** One line of the record. What was taken back is struck out, and says so. */
@Composable
private fun Line(row: DoneRow) {
    val time = DateUtils.formatDateTime(LocalContext.current, row.atUtcMs, TIME)
    Panel(Modifier.testTag("row")) {
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
}

private const val TIME = DateUtils.FORMAT_SHOW_DATE or DateUtils.FORMAT_SHOW_TIME or DateUtils.FORMAT_ABBREV_MONTH
