package org.stowfast.app.fridge

import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.foundation.lazy.LazyListScope
import androidx.compose.foundation.lazy.items
import androidx.compose.foundation.lazy.rememberLazyListState
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.runtime.LaunchedEffect
import androidx.compose.runtime.collectAsState
import androidx.compose.runtime.getValue
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.LocalContext
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.heading
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.unit.dp
import androidx.lifecycle.Lifecycle
import androidx.lifecycle.compose.LocalLifecycleOwner
import androidx.lifecycle.createSavedStateHandle
import androidx.lifecycle.repeatOnLifecycle
import androidx.lifecycle.viewmodel.compose.viewModel
import kotlinx.coroutines.delay
import org.stowfast.app.R
import org.stowfast.app.share.fridge
import org.stowfast.app.share.telling
import org.stowfast.app.ui.Caution
import org.stowfast.app.ui.ChoiceButton
import org.stowfast.app.ui.Lines
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.QuietButton
import org.stowfast.app.ui.SectionHeading
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.WhenShown
import org.stowfast.app.ui.countdown
import org.stowfast.app.ui.dayAndTime
import org.stowfast.app.ui.look
import org.stowfast.app.ui.roles
import org.stowfast.app.ui.timeOfDay
import org.stowfast.app.ui.trouble
import org.stowfast.engine.FridgeAheadRow
import org.stowfast.engine.FridgePage
import org.stowfast.engine.VehicleEngine

@Composable
fun FridgeRoute(engine: VehicleEngine, ways: Ways, onTarget: (String) -> Unit) {
    val model = viewModel(key = "fridge") { FridgeViewModel(engine, createSavedStateHandle()) }
    val state by model.state.collectAsState()
    val owner = LocalLifecycleOwner.current
    WhenShown(model) { model.onEvent(FridgeEvent.Shown) }
    LaunchedEffect(model) {
        owner.repeatOnLifecycle(Lifecycle.State.RESUMED) {
            while (true) {
                delay(SECOND_MS)
                model.onEvent(FridgeEvent.Tick)
            }
        }
    }
    FridgeScreen(state, ways, onTarget, model::onEvent)
}

private const val SECOND_MS = 1_000L

@Composable
fun FridgeScreen(state: FridgeState, ways: Ways, onTarget: (String) -> Unit, onEvent: (FridgeEvent) -> Unit) {
    val page = state.page
    val list = rememberLazyListState()
    val row = page?.ahead?.firstNotNullOfOrNull { it.leave }
    if (state.picking != null && row != null) return Departure(row, state.picking, state.problem, ways, onEvent)
    val title = page?.title ?: stringResource(R.string.fridge_heading)
    Page(title, ways, trouble(state.problem) { onEvent(FridgeEvent.Dismiss) }, list, told = telling(state.answered) { fridge(state) }) {
        if (page != null) {
            fridge(page, state.nowUtcMs, onEvent)
            items(page.ahead, key = { it.id }) { Ahead(it, onTarget, onEvent) }
        } else if (state.answered) {
            item { Panel { Text(stringResource(R.string.fridge_none), style = MaterialTheme.typography.bodyLarge) } }
        }
    }
}

private fun LazyListScope.fridge(page: FridgePage, nowUtcMs: Long, onEvent: (FridgeEvent) -> Unit) {
    item { Source(page) }
    page.byHand?.let { text ->
        item {
            Panel {
                Text(stringResource(R.string.fridge_hand), style = MaterialTheme.typography.labelMedium)
                Text(text, style = MaterialTheme.typography.titleMedium)
            }
        }
    }
    page.nextText?.let { text -> item { Next(page, text, nowUtcMs) } }
    items(page.cautions) { Caution(it) }
    if (page.why.isNotEmpty()) {
        item { SectionHeading(stringResource(R.string.fridge_why)) }
        item { Panel { Lines(page.why) } }
    }
    if (page.choices.isNotEmpty()) {
        item { SectionHeading(stringResource(R.string.fridge_set)) }
        items(page.choices, key = { it.id }) { choice ->
            ChoiceButton(
                choice.text,
                choice.id == page.chosen,
                { onEvent(FridgeEvent.Set(choice.id)) },
                Modifier.fillMaxWidth().testTag("set-" + choice.id),
            )
        }
    }
}

@Composable
private fun Source(page: FridgePage) {
    val look = page.source.look()
    Panel(Modifier.testTag("source"), tone = roles.quiet) {
        Marked(look.mark, tint = roles.quiet.mark, size = 56.dp, gap = 16.dp) {
            Text(
                stringResource(look.word),
                Modifier.semantics { heading() },
                style = MaterialTheme.typography.displaySmall,
            )
            if (page.manual) Text(stringResource(R.string.fridge_manual), style = MaterialTheme.typography.bodyMedium)
        }
        Text(page.headline, style = MaterialTheme.typography.titleMedium)
    }
}

@Composable
private fun Next(page: FridgePage, text: String, nowUtcMs: Long) {
    val context = LocalContext.current
    Panel(Modifier.testTag("next")) {
        Marked(page.nextSource?.look()?.mark ?: R.drawable.ic_clock, size = 32.dp) {
            Text(text, style = MaterialTheme.typography.titleMedium)
            page.nextChangeUtcMs?.let { at ->
                Text(
                    listOfNotNull(context.timeOfDay(at), context.countdown(at, nowUtcMs)).joinToString(" · "),
                    style = MaterialTheme.typography.titleLarge,
                )
            }
        }
    }
}

/** What the fridge needs before a trip, at the pump or on a ferry. [onTarget] leads to the routine that sees to all of it. */
@Composable
private fun Ahead(row: FridgeAheadRow, onTarget: (String) -> Unit, onEvent: (FridgeEvent) -> Unit) {
    Panel(Modifier.testTag("ahead-" + row.id)) {
        Text(row.title, Modifier.semantics { heading() }, style = MaterialTheme.typography.titleMedium)
        Lines(row.lines)
        val leave = row.leave
        if (leave?.chosenUtcMs == null) row.readyUtcMs?.let { Ready(it) }
        if (leave != null) Leave(leave, onEvent)
        row.targetId?.let { target ->
            QuietButton(stringResource(R.string.fridge_target, row.title), { onTarget(target) }, Modifier.fillMaxWidth().testTag("target-of-" + row.id), R.drawable.ic_route)
        }
    }
}

@Composable
private fun Ready(utcMs: Long) {
    val ready = LocalContext.current.dayAndTime(utcMs)
    Marked(R.drawable.ic_clock) { Text(stringResource(R.string.fridge_ready, ready), style = MaterialTheme.typography.titleMedium) }
}
