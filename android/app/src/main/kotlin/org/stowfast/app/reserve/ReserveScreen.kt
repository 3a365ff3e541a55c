package org.stowfast.app.reserve

import androidx.compose.foundation.layout.fillMaxWidth
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
import androidx.compose.ui.semantics.contentDescription
import androidx.compose.ui.semantics.heading
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.unit.dp
import androidx.lifecycle.viewmodel.compose.viewModel
import org.stowfast.app.R
import org.stowfast.app.frame.Place
import org.stowfast.app.share.reserves
import org.stowfast.app.share.telling
import org.stowfast.app.ui.Beside
import org.stowfast.app.ui.Door
import org.stowfast.app.ui.Lines
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Named
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.QuietButton
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.WhenShown
import org.stowfast.app.ui.Working
import org.stowfast.app.ui.roles
import org.stowfast.app.ui.trouble
import org.stowfast.engine.ReservePage
import org.stowfast.engine.ReserveRow
import org.stowfast.engine.VehicleEngine

@Composable
fun ReserveRoute(engine: VehicleEngine, ways: Ways, go: (Place) -> Unit, onRead: (String) -> Unit) {
    val model = viewModel(key = "reserve") { ReserveViewModel(engine) }
    val state by model.state.collectAsState()
    WhenShown(model) { model.onEvent(ReserveEvent.Shown) }
    ReserveScreen(state, ways, go, onRead, model::onEvent)
}

/** What is left of everything that runs out or fills, and how long it lasts. [onRead] is given the gauge to read. */
@Composable
fun ReserveScreen(state: ReserveState, ways: Ways, go: (Place) -> Unit, onRead: (String) -> Unit, onEvent: (ReserveEvent) -> Unit) {
    val page = state.page
    val besides = rememberLazyListState()
    Page(
        stringResource(R.string.reserve_heading),
        ways,
        trouble(state.problem) { onEvent(ReserveEvent.Dismiss) },
        told = telling(page != null) { reserves(state) },
        beside = page?.takeIf { it.rows.isNotEmpty() }?.let {
            Beside(besides) {
                items(it.rows, key = { row -> row.id }) { row -> Reserve(row) { onRead(row.id) } }
                item { Text(it.about, style = MaterialTheme.typography.bodyMedium, color = MaterialTheme.colorScheme.onSurfaceVariant) }
            }
        },
    ) {
        when {
            page == null -> if (state.problem == null) item { Working() }
            page.rows.isEmpty() -> item { Panel { Text(stringResource(R.string.reading_none), style = MaterialTheme.typography.bodyLarge) } }
            else -> {
                item { Door(R.drawable.ic_clock, R.string.stay_heading, null, "stay") { go(Place.STAY) } }
                item { Door(R.drawable.ic_question, R.string.reckon_heading, null, "questions") { go(Place.QUESTIONS) } }
                item { Door(R.drawable.ic_note, R.string.figures_heading, null, "figures") { go(Place.FIGURES) } }
                item { First(page) }
                page.gasText?.let { gas -> item { Gas(gas) } }
            }
        }
    }
}

@Composable
private fun First(page: ReservePage) {
    Panel(Modifier.testTag("first"), tone = roles.quiet) {
        Marked(R.drawable.ic_clock, tint = roles.quiet.mark, size = 28.dp) {
            Text(page.firstText, Modifier.semantics { heading() }, style = MaterialTheme.typography.titleMedium)
        }
        Lines(page.firsts)
        if (page.unknown.isNotEmpty()) {
            Text(page.unknownText, style = MaterialTheme.typography.titleMedium)
            Lines(page.unknown)
        }
    }
}

/** What all cylinders hold together. */
@Composable
private fun Gas(gas: String) {
    Panel(Modifier.testTag("gas")) {
        Marked(R.drawable.ic_flame, size = 28.dp) { Text(gas, style = MaterialTheme.typography.bodyLarge) }
    }
}

@Composable
private fun Reserve(row: ReserveRow, onRead: () -> Unit) {
    val muted = MaterialTheme.colorScheme.onSurfaceVariant
    Panel(Modifier.testTag("reserve-" + row.id)) {
        Marked(R.drawable.ic_gauge, size = 28.dp) {
            Text(row.title, Modifier.semantics { heading() }, style = MaterialTheme.typography.titleMedium)
            Text(row.levelText, style = MaterialTheme.typography.headlineSmall)
            row.levelAgeText?.let { Text(it, style = MaterialTheme.typography.bodyMedium, color = muted) }
            if (row.first) Text(stringResource(R.string.reserve_first), style = MaterialTheme.typography.labelMedium)
        }
        row.leftText?.let { Named(stringResource(R.string.reserve_left, row.endText), it) }
        row.usedText?.let { Named(stringResource(R.string.reserve_used), it) }
        row.restsText?.let { Text(it, style = MaterialTheme.typography.bodyMedium, color = muted) }
        row.roomText?.let { Text(it, style = MaterialTheme.typography.bodyLarge) }
        row.betweenText?.let { Named(stringResource(R.string.reserve_between), it) }
        row.seenText?.let { seen -> Named(stringResource(R.string.reserve_seen), listOfNotNull(seen, row.seenAgeText).joinToString(", ")) }
        if (!row.seenCounts) NotCounted(row.seenNote)
        for (line in row.missing) {
            Marked(R.drawable.ic_question, tint = muted, size = 22.dp) { Text(line, style = MaterialTheme.typography.bodyLarge) }
        }
        val name = stringResource(R.string.reserve_read, row.title)
        val button = Modifier.fillMaxWidth().testTag("read-" + row.id).semantics { contentDescription = name }
        QuietButton(stringResource(R.string.reading_enter), onRead, button, R.drawable.ic_look)
    }
}

@Composable
private fun NotCounted(note: String?) {
    Marked(R.drawable.mark_unknown, tint = roles.unknown.mark, size = 22.dp) {
        Text(note ?: stringResource(R.string.reserve_not_counted), style = MaterialTheme.typography.bodyLarge)
    }
}
