package org.stowfast.app.reckon

import android.content.Context
import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.foundation.lazy.LazyListScope
import androidx.compose.foundation.lazy.LazyListState
import androidx.compose.foundation.lazy.items
import androidx.compose.foundation.lazy.rememberLazyListState
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.runtime.LaunchedEffect
import androidx.compose.runtime.collectAsState
import androidx.compose.runtime.getValue
import androidx.compose.runtime.mutableStateOf
import androidx.compose.runtime.remember
import androidx.compose.runtime.rememberCoroutineScope
import androidx.compose.runtime.setValue
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.LocalContext
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.LiveRegionMode
import androidx.compose.ui.semantics.contentDescription
import androidx.compose.ui.semantics.heading
import androidx.compose.ui.semantics.liveRegion
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.unit.dp
import androidx.lifecycle.createSavedStateHandle
import androidx.lifecycle.viewmodel.compose.viewModel
import kotlinx.coroutines.launch
import org.stowfast.app.R
import org.stowfast.app.share.reckoning
import org.stowfast.app.share.telling
import org.stowfast.app.ui.Beside
import org.stowfast.app.ui.Caution
import org.stowfast.app.ui.FigureEntry
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.QuietButton
import org.stowfast.app.ui.SectionHeading
import org.stowfast.app.ui.VerdictLook
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.WhenShown
import org.stowfast.app.ui.Working
import org.stowfast.app.ui.dayAndTime
import org.stowfast.app.ui.roles
import org.stowfast.app.ui.trouble
import org.stowfast.app.ui.wide
import org.stowfast.engine.Choice
import org.stowfast.engine.Mark
import org.stowfast.engine.Pick
import org.stowfast.engine.Reckoning
import org.stowfast.engine.ReckoningGauge
import org.stowfast.engine.VehicleEngine

/** Where a question leads: [read] is given the gauge to read, [live] shows the same as the phone feels it. */
data class ReckonWays(val read: (String) -> Unit, val live: () -> Unit)

/** [id] names the question. Where anything is [given], it is asked with that, once. */
@Composable
fun ReckonRoute(engine: VehicleEngine, ways: Ways, id: String, leads: ReckonWays, given: List<Pick>, taken: () -> Unit) {
    val model = viewModel(key = "reckon-$id") { ReckonViewModel(engine, id, createSavedStateHandle()) }
    val state by model.state.collectAsState()
    WhenShown(model) { model.onEvent(ReckonEvent.Shown) }
    LaunchedEffect(given) {
        if (given.isNotEmpty()) {
            model.onEvent(ReckonEvent.Given(given))
            taken()
        }
    }
    ReckonScreen(state, ways, leads, onEvent = model::onEvent)
}

/**
 * The answer to any question of numbers. Once there is one, it comes first with its numbers, and what it was asked with below;
 * before, what it needs stands on top. Where the window is wide the numbers stand beside both.
 */
@Composable
fun ReckonScreen(state: ReckonState, ways: Ways, leads: ReckonWays, list: LazyListState = rememberLazyListState(), onEvent: (ReckonEvent) -> Unit) {
    val page = state.page
    val title = page?.title ?: stringResource(R.string.reckon_heading)
    val besides = rememberLazyListState()
    val numbersFirst = page?.answered() == true && !wide()
    ToTheAnswer(page?.answered(), list)
    Page(
        title,
        ways,
        trouble(state.problem) { onEvent(ReckonEvent.Dismiss) },
        list,
        told = telling(page != null) { reckoning(state) },
        beside = page?.takeUnless { numbersFirst }?.let { Beside(besides) { numbers(it, leads.read); about(it) } },
    ) {
        if (page == null) {
            if (state.problem == null) item { Working() }
            return@Page
        }
        item { Verdict(page) }
        page.liveText?.let { word -> item { QuietButton(word, leads.live, Modifier.fillMaxWidth().testTag("live"), R.drawable.ic_gauge) } }
        items(page.cautions) { Caution(it) }
        if (numbersFirst) {
            if (page.isAsked()) item { ToAsked(page, list) }
            numbers(page, leads.read)
        }
        items(page.missing) { Missing(it) }
        asked(page, state.open, onEvent)
        if (numbersFirst) about(page)
    }
}

/** Whether it can be told how things stand. */
fun Reckoning.answered(): Boolean = mark != null && parts.isNotEmpty()

private fun Reckoning.isAsked(): Boolean = choices.isNotEmpty() || asks.isNotEmpty()

/** Once there is an answer, it is brought into sight. */
@Composable
private fun ToTheAnswer(answered: Boolean?, list: LazyListState) {
    var before by remember { mutableStateOf(answered) }
    LaunchedEffect(answered) {
        if (before == false && answered == true) list.scrollToItem(0)
        before = answered
    }
}

/** Leads past the numbers: what stands from there to the end of the list is counted, and the last of it is how to share it. */
@Composable
private fun ToAsked(page: Reckoning, list: LazyListState) {
    val scope = rememberCoroutineScope()
    val rest = 1 + page.choices.size + page.asks.size + 1 + page.about.size + 1
    QuietButton(stringResource(R.string.reckon_change), { scope.launch { list.scrollToItem(list.layoutInfo.totalItemsCount - rest) } }, Modifier.fillMaxWidth().testTag("to-asked"), R.drawable.ic_down)
}

private fun LazyListScope.numbers(page: Reckoning, read: (String) -> Unit) {
    for (part in page.parts) {
        item { SectionHeading(part.title) }
        part.chart?.let { chart -> item { ChartPanel(chart) } }
        items(part.lines) { Line(it) }
    }
    items(page.gauges) { Gauge(it, read) }
}

private fun LazyListScope.about(page: Reckoning) {
    item { SectionHeading(stringResource(R.string.reckon_about)) }
    items(page.about) { Text(it, style = MaterialTheme.typography.bodyMedium, color = MaterialTheme.colorScheme.onSurfaceVariant) }
}

private fun LazyListScope.asked(page: Reckoning, open: String?, onEvent: (ReckonEvent) -> Unit) {
    if (!page.isAsked()) return
    item { SectionHeading(stringResource(R.string.reckon_asked)) }
    items(page.choices, key = { "choice-" + it.id }) { ChoiceEntry(it, open == it.id || it.first(page), onEvent) }
    items(page.asks, key = { "ask-" + it.id }) { row ->
        FigureEntry(row, open == row.id, { onEvent(ReckonEvent.Open(row.id)) }) { onEvent(ReckonEvent.Tell(row.id, it)) }
    }
}

/** What there is no answer without stands open. Several fields for numbers would not: which is being typed? */
private fun Choice.first(page: Reckoning): Boolean = page.parts.isEmpty() && number == null && picked() == null

@Composable
private fun Verdict(page: Reckoning) {
    val look = page.mark.look()
    Panel(Modifier.testTag("verdict").semantics { liveRegion = LiveRegionMode.Polite }, tone = look.tone) {
        Marked(look.mark, tint = look.tone.mark, size = 36.dp) {
            Text(page.verdictText, Modifier.semantics { heading() }, style = MaterialTheme.typography.titleLarge)
            page.by(LocalContext.current)?.let { Text(it, style = MaterialTheme.typography.titleMedium) }
        }
    }
}

@Composable
private fun Missing(line: String) {
    Marked(R.drawable.ic_question, tint = roles.unknown.mark, size = 22.dp) { Text(line, style = MaterialTheme.typography.bodyLarge) }
}

@Composable
private fun Gauge(gauge: ReckoningGauge, read: (String) -> Unit) {
    val name = stringResource(R.string.reserve_read, gauge.title)
    QuietButton(name, { read(gauge.id) }, Modifier.fillMaxWidth().testTag("read-" + gauge.id).semantics { contentDescription = name }, R.drawable.ic_look)
}

/** By when something must be done, by the clock of this phone. */
fun Reckoning.by(context: Context): String? = byUtcMs?.let { listOfNotNull(byText, context.dayAndTime(it)).joinToString(" ") }

/** Four shapes, so that they differ without colour. */
@Composable
fun Mark?.look(): VerdictLook = when (this) {
    Mark.FINE -> VerdictLook(R.drawable.mark_clear, roles.clear)
    Mark.WATCH -> VerdictLook(R.drawable.mark_unknown, roles.unknown)
    Mark.WRONG -> VerdictLook(R.drawable.mark_blocked, roles.blocked)
    null -> VerdictLook(R.drawable.ic_question, roles.unknown)
}
