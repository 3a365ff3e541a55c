package org.stowfast.app.alert

import androidx.annotation.StringRes
import androidx.compose.foundation.lazy.LazyListScope
import androidx.compose.foundation.lazy.items
import androidx.compose.foundation.lazy.rememberLazyListState
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.runtime.LaunchedEffect
import androidx.compose.runtime.collectAsState
import androidx.compose.runtime.getValue
import androidx.compose.runtime.mutableStateOf
import androidx.compose.runtime.saveable.rememberSaveable
import androidx.compose.runtime.setValue
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.heading
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.unit.dp
import androidx.lifecycle.viewmodel.compose.viewModel
import org.stowfast.app.R
import org.stowfast.app.red.drawn
import org.stowfast.app.share.alert
import org.stowfast.app.share.telling
import org.stowfast.app.ui.Caution
import org.stowfast.app.ui.Folding
import org.stowfast.app.ui.Lines
import org.stowfast.app.ui.MainButton
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.SectionHeading
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.WhenShown
import org.stowfast.app.ui.Working
import org.stowfast.app.ui.links
import org.stowfast.app.ui.look
import org.stowfast.app.ui.roles
import org.stowfast.app.ui.trouble
import org.stowfast.app.ui.word
import org.stowfast.engine.ActionRow
import org.stowfast.engine.AlertPage
import org.stowfast.engine.AlertRow
import org.stowfast.engine.MeaningRow
import org.stowfast.engine.ReportRow
import org.stowfast.engine.Shown
import org.stowfast.engine.VehicleEngine

/** Where a page of an alert leads on to. */
data class AlertWays(val preview: (String) -> Unit, val step: (String) -> Unit, val card: (String) -> Unit, val fault: (String) -> Unit)

@Composable
fun AlertRoute(engine: VehicleEngine, ways: Ways, alertId: String, on: AlertWays) {
    val model = viewModel(key = "alert-$alertId") { AlertViewModel(engine, alertId) }
    val state by model.state.collectAsState()
    WhenShown(model) { model.onEvent(AlertEvent.Shown) }
    AlertScreen(state, ways, on, model::onEvent)
}

/** What an alert means here and now, what to do, and what may be said of it. */
@Composable
fun AlertScreen(state: AlertState, ways: Ways, on: AlertWays, onEvent: (AlertEvent) -> Unit) {
    val page = state.page
    val list = rememberLazyListState()
    // What was reported may mean something else: the answer stands at the top.
    LaunchedEffect(state.reports) { if (state.reports > 0) list.scrollToItem(0) }
    Page(page?.alert?.title ?: stringResource(R.string.red_heading), ways, trouble(state.problem) { onEvent(AlertEvent.Dismiss) }, list, told = telling(page != null) { alert(state) }) {
        when {
            page != null -> answer(page, state.planned, on) { onEvent(AlertEvent.Report(it)) }
            state.problem == null -> item { Working() }
        }
    }
}

private fun LazyListScope.answer(page: AlertPage, planned: Set<String>, on: AlertWays, report: (ReportRow) -> Unit) {
    item { Sign(page.alert, page.meanings.first()) }
    advice(page.meanings.first(), planned, on, report)
    if (page.help.isNotEmpty()) item { Section(R.string.alert_help, page.help) }
    items(page.cautions) { Caution(it) }
    page.alert.report?.takeIf { page.alert.shown != Shown.YES }?.let { item(key = "report") { Report(it, "report", report) } }
    page.cleared?.let { item(key = "cleared") { Report(it, "cleared", report) } }
    if (page.meanings.size > 1) {
        item { SectionHeading(stringResource(R.string.alert_or)) }
        for (other in page.meanings.drop(1)) {
            item(key = "or-" + other.id) {
                Panel { Text(other.text, style = MaterialTheme.typography.titleMedium) }
            }
            advice(other, planned, on, report)
        }
    }
    links(page.faults, R.string.alert_faults, R.drawable.ic_fault, "fault", on.fault)
    links(page.cards, R.string.cards_heading, R.drawable.ic_card, "card", on.card)
    item {
        Text(
            stringResource(R.string.now_source, page.source),
            style = MaterialTheme.typography.bodyMedium,
            color = MaterialTheme.colorScheme.onSurfaceVariant,
        )
    }
}

/** What is seen, and what it means: a lamp that is as it should be does not look like a fault. */
@Composable
private fun Sign(row: AlertRow, meaning: MeaningRow) {
    val look = row.look()
    Panel(Modifier.testTag("sign"), tone = look.tone) {
        Marked(row.symbol.drawn(), tint = look.tone.mark, size = 40.dp) {
            Marked(look.mark, tint = look.tone.mark, size = 16.dp, gap = 8.dp) { Text(stringResource(row.word()), style = MaterialTheme.typography.bodyMedium) }
            if (row.shown != Shown.YES) Text(stringResource(R.string.alert_if), style = MaterialTheme.typography.bodyMedium)
            Text(meaning.text, Modifier.semantics { heading() }, style = MaterialTheme.typography.titleLarge)
        }
        meaning.surely(row)?.let { Text(stringResource(it), style = MaterialTheme.typography.bodyMedium) }
        Text(row.sign, style = MaterialTheme.typography.bodyLarge)
        Text(row.zoneTitle, style = MaterialTheme.typography.bodyMedium)
    }
}

/** How sure it is that it means this; of what does not show nothing is. */
@StringRes
fun MeaningRow.surely(row: AlertRow): Int? = when {
    row.shown != Shown.YES -> null
    normal -> R.string.alert_normal
    certain -> R.string.alert_certain
    else -> R.string.alert_uncertain
}

/** What its steps are for: where nothing is wrong they mend nothing. */
@StringRes
fun MeaningRow.mend(): Int = if (normal) R.string.alert_change else R.string.alert_mend

/** What one meaning asks for. */
private fun LazyListScope.advice(meaning: MeaningRow, planned: Set<String>, on: AlertWays, report: (ReportRow) -> Unit) {
    if (meaning.doNow.isNotEmpty()) item { Section(R.string.alert_do, meaning.doNow) }
    if (meaning.stopNow.isNotEmpty()) item { Section(R.string.alert_stop, meaning.stopNow) }
    if (meaning.trip.isNotEmpty()) item { Section(R.string.alert_trip, listOf(meaning.trip)) }
    if (meaning.routine != null || meaning.steps.isNotEmpty()) item { SectionHeading(stringResource(meaning.mend())) }
    meaning.routine?.let { routine ->
        item(key = "${meaning.id}-routine") {
            Panel(Modifier.testTag("routine-" + routine.id), onClick = { on.preview(routine.id) }, end = R.drawable.ic_forward) {
                Marked(R.drawable.ic_route) { Text(routine.title, style = MaterialTheme.typography.titleMedium) }
            }
        }
    }
    items(meaning.steps, key = { "${meaning.id}-step-${it.id}" }) { step -> Mend(step, on.takeIf { step.id in planned }) }
    if (meaning.finds.isNotEmpty()) item { SectionHeading(stringResource(R.string.alert_finds)) }
    items(meaning.finds, key = { "${meaning.id}-find-${it.variable}-${it.setting}" }) { Report(it, "find-${it.variable}-${it.setting}", report) }
}

@Composable
private fun Section(title: Int, lines: List<String>) {
    Panel {
        Text(stringResource(title), Modifier.semantics { heading() }, style = MaterialTheme.typography.titleMedium)
        Lines(lines)
    }
}

/** A step that mends it. A tap leads to it where the routine under way has it. */
@Composable
private fun Mend(step: ActionRow, on: AlertWays?) {
    Panel(
        Modifier.testTag("step-" + step.id),
        onClick = on?.let { { it.step(step.id) } },
        end = on?.let { R.drawable.ic_forward },
    ) {
        Marked(if (step.hazard) R.drawable.ic_danger else R.drawable.ic_do) {
            Text(step.text, style = MaterialTheme.typography.titleMedium)
            Text(step.zoneTitle, style = MaterialTheme.typography.bodyMedium)
        }
    }
}

/** Something to say. The first tap opens it, the second records it: no stray tap changes what is believed. */
@Composable
private fun Report(row: ReportRow, tag: String, report: (ReportRow) -> Unit) {
    var open by rememberSaveable(row.variable, row.setting) { mutableStateOf(false) }
    Folding(open, { open = !open }, Modifier.testTag(tag), roles.quiet) {
        Marked(R.drawable.ic_word, tint = roles.quiet.mark) { Text(row.text, style = MaterialTheme.typography.titleMedium) }
    }
    if (open) {
        MainButton(stringResource(R.string.alert_record), {
            open = false
            report(row)
        }, Modifier.testTag("record-$tag"))
    }
}
