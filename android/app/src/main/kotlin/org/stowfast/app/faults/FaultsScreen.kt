package org.stowfast.app.faults

import androidx.annotation.StringRes
import androidx.compose.foundation.layout.heightIn
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
import org.stowfast.app.share.faults
import org.stowfast.app.share.telling
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.WhenShown
import org.stowfast.app.ui.Working
import org.stowfast.app.ui.trouble
import org.stowfast.engine.FaultRow
import org.stowfast.engine.FaultStage
import org.stowfast.engine.VehicleEngine

@Composable
fun FaultsRoute(engine: VehicleEngine, ways: Ways, onOpen: (String) -> Unit) {
    val model = viewModel(key = "faults") { FaultsViewModel(engine) }
    val state by model.state.collectAsState()
    WhenShown(model) { model.onEvent(FaultsEvent.Shown) }
    FaultsScreen(state, ways, onOpen, model::onEvent)
}

/** All that may not work in this vehicle; a tap begins the search for its cause, or goes on with it. */
@Composable
fun FaultsScreen(state: FaultsState, ways: Ways, onOpen: (String) -> Unit, onEvent: (FaultsEvent) -> Unit) {
    Page(stringResource(R.string.faults_heading), ways, trouble(state.problem) { onEvent(FaultsEvent.Dismiss) }, told = telling(state.rows != null) { faults(state) }) {
        item { Text(stringResource(R.string.faults_about), style = MaterialTheme.typography.bodyLarge) }
        when {
            state.rows == null -> if (state.problem == null) item { Working() }
            state.rows.isEmpty() -> item { Text(stringResource(R.string.faults_none), style = MaterialTheme.typography.bodyLarge) }
            else -> items(state.rows, key = { it.id }) { row -> Fault(row) { onOpen(row.id) } }
        }
    }
}

@Composable
private fun Fault(row: FaultRow, onClick: () -> Unit) {
    Panel(Modifier.heightIn(min = 64.dp).testTag("fault-" + row.id), onClick = onClick, end = R.drawable.ic_forward) {
        Marked(R.drawable.ic_fault, size = 28.dp) {
            Text(row.title, style = MaterialTheme.typography.titleMedium)
            Text(row.zoneTitle, style = MaterialTheme.typography.bodyMedium)
            row.word()?.let { Text(stringResource(it), style = MaterialTheme.typography.bodyLarge) }
        }
    }
}

/** How far its search has come; nothing where it has not begun and nothing is known. */
@StringRes
fun FaultRow.word(): Int? = when (stage) {
    FaultStage.MENDED -> R.string.faults_mended
    FaultStage.ASKING -> R.string.faults_begun.takeIf { saidCount > 0 }
    FaultStage.FOUND, FaultStage.NORMAL, FaultStage.HELPER -> if (saidCount > 0) R.string.faults_ended else R.string.faults_known
}
