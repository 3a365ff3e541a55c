package org.stowfast.app.target

import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.ExperimentalLayoutApi
import androidx.compose.foundation.layout.FlowRow
import androidx.compose.foundation.layout.padding
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
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.semantics.stateDescription
import androidx.compose.ui.unit.dp
import androidx.lifecycle.createSavedStateHandle
import androidx.lifecycle.viewmodel.compose.viewModel
import org.stowfast.app.R
import org.stowfast.app.share.targets
import org.stowfast.app.share.telling
import org.stowfast.app.ui.Beside
import org.stowfast.app.ui.ChoiceButton
import org.stowfast.app.ui.MainButton
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.WhenShown
import org.stowfast.app.ui.halves
import org.stowfast.app.ui.trouble
import org.stowfast.engine.TargetRow
import org.stowfast.engine.VehicleEngine

@Composable
fun TargetRoute(engine: VehicleEngine, ways: Ways, onChosen: (String) -> Unit) {
    val model = viewModel(key = "target") { TargetViewModel(engine, createSavedStateHandle()) }
    val state by model.state.collectAsState()
    WhenShown(model) { model.onEvent(TargetEvent.Shown) }
    TargetScreen(state, ways, onChosen, model::onEvent)
}

/** What the vehicle can be got ready for. [onChosen] is given what the engine knows it by. */
@Composable
fun TargetScreen(state: TargetState, ways: Ways, onChosen: (String) -> Unit, onEvent: (TargetEvent) -> Unit) {
    val (first, others) = halves(state.targets.orEmpty())
    val besides = rememberLazyListState()
    Page(
        stringResource(R.string.target_heading),
        ways,
        trouble(state.problem) { onEvent(TargetEvent.Dismiss) },
        told = telling(state.targets != null) { targets(state) },
        beside = Beside(besides) { rows(others, state, onChosen, onEvent) },
    ) {
        rows(first, state, onChosen, onEvent)
    }
}

private fun LazyListScope.rows(rows: List<TargetRow>, state: TargetState, onChosen: (String) -> Unit, onEvent: (TargetEvent) -> Unit) =
    items(rows, key = { it.id }) { target ->
        val choose = { onChosen(state.aim(target)) }
        if (target.parts.isEmpty()) {
            Panel(Modifier.testTag("target-" + target.id), onClick = choose, end = R.drawable.ic_forward) { Title(target) }
        } else {
            Parted(target, state, choose, onEvent)
        }
    }

@Composable
private fun Title(target: TargetRow) {
    Marked(if (target.road) R.drawable.ic_van else R.drawable.ic_route, size = 28.dp) {
        Text(target.title, style = MaterialTheme.typography.titleMedium)
        if (target.road) Text(stringResource(R.string.target_road), style = MaterialTheme.typography.bodyMedium)
    }
}

/** A target that can be asked for in parts: none ticked means all of it. */
@OptIn(ExperimentalLayoutApi::class)
@Composable
private fun Parted(target: TargetRow, state: TargetState, choose: () -> Unit, onEvent: (TargetEvent) -> Unit) {
    val open = state.open == target.id
    val said = stringResource(if (open) R.string.routine_opened else R.string.routine_shut)
    Panel(
        Modifier.testTag("target-" + target.id).semantics { stateDescription = said },
        onClick = { onEvent(TargetEvent.Open(target.id)) },
        end = if (open) R.drawable.ic_up else R.drawable.ic_down,
    ) { Title(target) }
    if (open) {
        Panel(Modifier.padding(top = 8.dp).testTag("parts")) {
            Text(stringResource(R.string.target_parts), style = MaterialTheme.typography.bodyLarge)
            FlowRow(horizontalArrangement = Arrangement.spacedBy(8.dp), verticalArrangement = Arrangement.spacedBy(8.dp)) {
                for (part in target.parts) {
                    ChoiceButton(part.title, part.id in state.ticked, { onEvent(TargetEvent.Tick(part.id)) }, Modifier.testTag("part-" + part.id))
                }
            }
            val text = if (state.ticked.isEmpty()) R.string.target_all else R.string.target_some
            MainButton(stringResource(text), choose, Modifier.testTag("choose"), icon = R.drawable.ic_route)
        }
    }
}

/** What the engine knows the ticked parts of [target] by; the whole target where none is ticked. */
private fun TargetState.aim(target: TargetRow): String {
    val meant = target.parts.map { it.id }.filter { it in ticked }
    return if (meant.isEmpty()) target.id else target.id + "/" + meant.joinToString("+")
}
