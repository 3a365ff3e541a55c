package org.stowfast.app.may

import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.foundation.layout.heightIn
import androidx.compose.foundation.lazy.LazyListScope
import androidx.compose.foundation.lazy.items
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.runtime.collectAsState
import androidx.compose.runtime.getValue
import androidx.compose.ui.Alignment
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.heading
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.unit.dp
import androidx.lifecycle.viewmodel.compose.viewModel
import org.stowfast.app.R
import org.stowfast.app.routine.icon
import org.stowfast.app.share.may
import org.stowfast.app.share.telling
import org.stowfast.app.ui.Caution
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.QuietButton
import org.stowfast.app.ui.SectionHeading
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.WhenShown
import org.stowfast.app.ui.Working
import org.stowfast.app.ui.roles
import org.stowfast.app.ui.trouble
import org.stowfast.engine.ActionRow
import org.stowfast.engine.AgainstRow
import org.stowfast.engine.MayPage
import org.stowfast.engine.MoveRow
import org.stowfast.engine.StepKind
import org.stowfast.engine.VehicleEngine

/** Where the answer leads on to. */
data class MayWays(val card: (String) -> Unit, val step: (String) -> Unit, val preview: (String) -> Unit)

@Composable
fun MayRoute(engine: VehicleEngine, ways: Ways, stepId: String, on: MayWays) {
    val model = viewModel(key = "may-$stepId") { MayViewModel(engine, stepId) }
    val state by model.state.collectAsState()
    WhenShown(model) { model.onEvent(MayEvent.Shown) }
    MayScreen(state, ways, on, model::onEvent)
}

/** May this be done now? The answer, all that speaks against it, and its cautions. */
@Composable
fun MayScreen(state: MayState, ways: Ways, on: MayWays, onEvent: (MayEvent) -> Unit) {
    val page = state.page
    Page(stringResource(R.string.may_heading), ways, trouble(state.problem) { onEvent(MayEvent.Dismiss) }, told = telling(page != null) { may(state) }) {
        when {
            page != null -> answer(page, on)
            state.problem == null -> item { Working() }
        }
    }
}

private fun LazyListScope.answer(page: MayPage, on: MayWays) {
    val step = page.step
    item {
        Panel(Modifier.testTag("asked")) {
            Text(step.text, Modifier.semantics { heading() }, style = MaterialTheme.typography.headlineMedium)
            Marked(R.drawable.ic_place) { Text(step.zoneTitle, style = MaterialTheme.typography.titleMedium) }
        }
    }
    item {
        val tone = if (page.refused) roles.blocked else roles.quiet
        Panel(Modifier.testTag("answer"), tone = tone) {
            Marked(if (page.refused) R.drawable.mark_blocked else R.drawable.ic_do, tint = tone.mark, size = 40.dp) {
                Text(page.answer, style = MaterialTheme.typography.titleLarge)
            }
        }
    }
    if (page.against.isNotEmpty()) {
        item { SectionHeading(stringResource(R.string.may_against)) }
        item { Panel(Modifier.testTag("against")) { page.against.forEach { Against(it) } } }
    }
    if (page.first.isNotEmpty()) item { SectionHeading(stringResource(R.string.may_first)) }
    items(page.first, key = { "first-" + it.id }) { First(it, on.step) }
    page.routine?.let { routine ->
        item { SectionHeading(stringResource(R.string.may_routine)) }
        item {
            Panel(Modifier.testTag("routine-" + routine.id), onClick = { on.preview(routine.id) }, end = R.drawable.ic_forward) {
                Marked(R.drawable.ic_route, size = 28.dp) { Text(routine.title, style = MaterialTheme.typography.titleMedium) }
            }
        }
    }
    items(step.cautions) { Caution(it) }
    item { Text(stringResource(R.string.about_advises), style = MaterialTheme.typography.bodyMedium) }
    step.card?.let { card ->
        item { QuietButton(stringResource(R.string.routine_card), { on.card(card) }, Modifier.fillMaxWidth().testTag("card"), R.drawable.ic_card) }
    }
}

/** One objection, and what removes it. */
@Composable
private fun Against(row: AgainstRow) {
    Marked(R.drawable.ic_none, tint = roles.blocked.mark, size = 22.dp, align = Alignment.Top) {
        Text(row.text, style = MaterialTheme.typography.bodyLarge)
        row.removedText?.let { Text(it, style = MaterialTheme.typography.bodyMedium, color = MaterialTheme.colorScheme.onSurfaceVariant) }
    }
}

/** A step that comes first: a tap asks of it. To wait, nobody need ask. */
@Composable
private fun First(row: ActionRow, onAsk: (String) -> Unit) {
    val asks = row.kind != StepKind.WAIT
    Panel(Modifier.testTag("first-" + row.id), onClick = if (asks) ({ onAsk(row.id) }) else null, end = R.drawable.ic_forward.takeIf { asks }) {
        Marked(row.kind.icon(), size = 28.dp) {
            Text(row.text, style = MaterialTheme.typography.titleMedium)
            Text(row.zoneTitle, style = MaterialTheme.typography.bodyMedium)
        }
    }
}

/** One thing that can be done, and by its [row] how it stands; a tap asks. 64 dp, for a cold thumb. */
@Composable
fun Move(id: String, kind: StepKind, text: String, row: MoveRow?, onAsk: (String) -> Unit) {
    Panel(Modifier.heightIn(min = 64.dp).testTag("may-$id"), onClick = { onAsk(id) }, end = R.drawable.ic_forward) {
        Marked(kind.icon(), size = 28.dp) {
            Text(text, style = MaterialTheme.typography.titleMedium)
            if (row != null && row.standsText.isNotEmpty()) {
                Marked(if (row.isSo) R.drawable.ic_do else R.drawable.ic_none, tint = MaterialTheme.colorScheme.onSurfaceVariant, size = 20.dp, gap = 8.dp) {
                    Text(row.standsText, style = MaterialTheme.typography.bodyLarge)
                }
            }
        }
    }
}
