package org.stowfast.app.shared

import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.ExperimentalLayoutApi
import androidx.compose.foundation.layout.FlowRow
import androidx.compose.foundation.layout.padding
import androidx.compose.foundation.lazy.LazyListScope
import androidx.compose.foundation.lazy.items
import androidx.compose.foundation.lazy.itemsIndexed
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.runtime.collectAsState
import androidx.compose.runtime.getValue
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.heading
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.unit.dp
import androidx.lifecycle.createSavedStateHandle
import androidx.lifecycle.viewmodel.compose.viewModel
import org.stowfast.app.R
import org.stowfast.app.routine.Impossible
import org.stowfast.app.routine.duration
import org.stowfast.app.routine.icon
import org.stowfast.app.share.shared
import org.stowfast.app.share.telling
import org.stowfast.app.ui.Caution
import org.stowfast.app.ui.ChoiceButton
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.WhenShown
import org.stowfast.app.ui.Working
import org.stowfast.app.ui.roles
import org.stowfast.app.ui.trouble
import org.stowfast.engine.PersonRow
import org.stowfast.engine.SharedPage
import org.stowfast.engine.SharedStepRow
import org.stowfast.engine.StepKind
import org.stowfast.engine.VehicleEngine

@Composable
fun SharedRoute(engine: VehicleEngine, ways: Ways, aim: String) {
    val model = viewModel(key = "shared-$aim") { SharedViewModel(engine, aim, createSavedStateHandle()) }
    val state by model.state.collectAsState()
    WhenShown(model) { model.onEvent(SharedEvent.Shown) }
    SharedScreen(state, ways, model::onEvent)
}

/** A way that two people share: each reads one list, and confirms on the phone that holds the routine. */
@Composable
fun SharedScreen(state: SharedState, ways: Ways, onEvent: (SharedEvent) -> Unit) {
    val page = state.page
    Page(page?.targetTitle ?: stringResource(R.string.shared_heading), ways, trouble(state.problem) { onEvent(SharedEvent.Dismiss) }, told = telling(page != null) { shared(state) }) {
        when {
            page != null -> shared(page, state.who, onEvent)
            state.problem == null -> item { Working() }
        }
    }
}

private fun LazyListScope.shared(page: SharedPage, who: Int, onEvent: (SharedEvent) -> Unit) {
    item {
        Panel(tone = roles.quiet) {
            Marked(R.drawable.ic_two, tint = roles.quiet.mark, size = 32.dp) {
                Text(page.headline, style = MaterialTheme.typography.titleMedium)
            }
            if (page.people.size > 1) Text(stringResource(R.string.shared_view), style = MaterialTheme.typography.bodyLarge)
        }
    }
    if (page.impossible.isNotEmpty()) item { Impossible(page.impossible) }
    items(page.warnings) { Caution(it) }
    if (page.people.size > 1) item { People(page.people, who, onEvent) }
    val steps = page.people.getOrNull(who)?.steps.orEmpty()
    itemsIndexed(steps) { index, row ->
        val arrives = index == 0 || steps[index - 1].step.zoneId != row.step.zoneId
        Step(row, arrives)
    }
}

@OptIn(ExperimentalLayoutApi::class)
@Composable
private fun People(people: List<PersonRow>, who: Int, onEvent: (SharedEvent) -> Unit) {
    FlowRow(horizontalArrangement = Arrangement.spacedBy(8.dp), verticalArrangement = Arrangement.spacedBy(8.dp)) {
        people.forEachIndexed { index, person ->
            ChoiceButton(person.title, index == who, { onEvent(SharedEvent.Show(index)) }, Modifier.testTag("person-$index"))
        }
    }
}

@Composable
private fun Step(row: SharedStepRow, arrives: Boolean) {
    val step = row.step
    val muted = MaterialTheme.colorScheme.onSurfaceVariant
    if (arrives) {
        Text(
            step.zoneTitle,
            Modifier.padding(top = 4.dp, start = 4.dp, bottom = 8.dp).semantics { heading() },
            style = MaterialTheme.typography.labelMedium,
            color = MaterialTheme.colorScheme.primary,
        )
    }
    Panel(Modifier.testTag("shared-" + step.id)) {
        row.wordText?.let { word ->
            Marked(R.drawable.ic_word, tint = roles.unknown.mark) {
                Text(word, style = MaterialTheme.typography.titleMedium, color = roles.unknown.mark)
            }
        }
        Marked(step.kind.icon(), tint = muted) {
            Text(step.text, style = MaterialTheme.typography.titleMedium)
            if (step.kind == StepKind.LOOK) Text(step.wanted, style = MaterialTheme.typography.bodyLarge)
            Text(
                if (row.startS == 0) stringResource(R.string.shared_at_once) else stringResource(R.string.shared_start, duration(row.startS)),
                style = MaterialTheme.typography.bodyMedium,
                color = muted,
            )
        }
        for (caution in step.cautions) Caution(caution)
    }
}
