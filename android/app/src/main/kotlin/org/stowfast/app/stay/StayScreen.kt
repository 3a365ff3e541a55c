package org.stowfast.app.stay

import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.ExperimentalLayoutApi
import androidx.compose.foundation.layout.FlowRow
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
import androidx.compose.ui.res.pluralStringResource
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.LiveRegionMode
import androidx.compose.ui.semantics.contentDescription
import androidx.compose.ui.semantics.heading
import androidx.compose.ui.semantics.liveRegion
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.unit.dp
import androidx.lifecycle.createSavedStateHandle
import androidx.lifecycle.viewmodel.compose.viewModel
import org.stowfast.app.R
import org.stowfast.app.share.stay
import org.stowfast.app.share.telling
import org.stowfast.app.ui.Beside
import org.stowfast.app.ui.ChoiceButton
import org.stowfast.app.ui.Door
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Named
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.QuietButton
import org.stowfast.app.ui.SectionHeading
import org.stowfast.app.ui.VerdictLook
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.WhenShown
import org.stowfast.app.ui.Working
import org.stowfast.app.ui.roles
import org.stowfast.app.ui.trouble
import org.stowfast.engine.Holds
import org.stowfast.engine.StayPage
import org.stowfast.engine.StayRow
import org.stowfast.engine.VehicleEngine

/** How many nights can be chosen. */
private val NIGHTS = listOf(1, 2, 3, 4, 5, 7, 10, 14)

/** Where the page leads on to: [read] is given the gauge to read, [figures] is where people say what they use. */
data class StayWays(val read: (String) -> Unit, val figures: () -> Unit)

@Composable
fun StayRoute(engine: VehicleEngine, ways: Ways, on: StayWays) {
    val model = viewModel(key = "stay") { StayViewModel(engine, createSavedStateHandle()) }
    val state by model.state.collectAsState()
    WhenShown(model) { model.onEvent(StayEvent.Shown) }
    StayScreen(state, ways, on, model::onEvent)
}

/** Whether what is on board holds for some nights without services, and what to see to before. */
@Composable
fun StayScreen(state: StayState, ways: Ways, on: StayWays, onEvent: (StayEvent) -> Unit) {
    val page = state.page
    val besides = rememberLazyListState()
    Page(
        stringResource(R.string.stay_heading),
        ways,
        trouble(state.problem) { onEvent(StayEvent.Dismiss) },
        told = telling(page != null) { stay(state) },
        beside = page?.takeIf { it.rows.isNotEmpty() }?.let {
            Beside(besides) {
                items(it.rows, key = { row -> row.id }) { row -> Reserve(row) { on.read(row.id) } }
                item { Text(it.about, style = MaterialTheme.typography.bodyMedium, color = MaterialTheme.colorScheme.onSurfaceVariant) }
            }
        },
    ) {
        when {
            page == null -> if (state.problem == null) item { Working() }
            page.rows.isEmpty() -> item { Panel { Text(stringResource(R.string.reading_none), style = MaterialTheme.typography.bodyLarge) } }
            else -> {
                item { SectionHeading(stringResource(R.string.stay_nights)) }
                item { Nights(state.nights, onEvent) }
                item { Verdict(page) }
                item { Door(R.drawable.ic_note, R.string.stay_say, null, "figures", onClick = on.figures) }
            }
        }
    }
}

@OptIn(ExperimentalLayoutApi::class)
@Composable
private fun Nights(chosen: Long, onEvent: (StayEvent) -> Unit) {
    FlowRow(horizontalArrangement = Arrangement.spacedBy(8.dp), verticalArrangement = Arrangement.spacedBy(4.dp)) {
        for (nights in NIGHTS) {
            val name = pluralStringResource(R.plurals.stay_of_nights, nights, nights)
            val button = Modifier.testTag("nights-$nights").semantics { contentDescription = name }
            ChoiceButton(nights.toString(), nights.toLong() == chosen, { onEvent(StayEvent.Choose(nights.toLong())) }, button)
        }
    }
}

@Composable
private fun Verdict(page: StayPage) {
    val look = page.holds.look()
    Panel(Modifier.testTag("holds").semantics { liveRegion = LiveRegionMode.Polite }, tone = look.tone) {
        Marked(look.mark, tint = look.tone.mark, size = 36.dp) {
            Text(page.title, Modifier.semantics { heading() }, style = MaterialTheme.typography.titleLarge)
            Text(page.holdsText, style = MaterialTheme.typography.bodyLarge)
        }
    }
}

@Composable
private fun Reserve(row: StayRow, onRead: () -> Unit) {
    val muted = MaterialTheme.colorScheme.onSurfaceVariant
    val look = row.holds.look()
    Panel(Modifier.testTag("stay-" + row.id)) {
        Marked(look.mark, tint = look.tone.mark, size = 28.dp) {
            Text(row.title, Modifier.semantics { heading() }, style = MaterialTheme.typography.titleMedium)
            Text(row.holdsText, style = MaterialTheme.typography.headlineSmall)
        }
        row.leftText?.let { Named(stringResource(R.string.stay_left), it) }
        row.usedText?.let { Named(stringResource(R.string.stay_used), it) }
        row.doText?.let { before ->
            Panel(Modifier.testTag("before-" + row.id), tone = roles.quiet) {
                Marked(R.drawable.ic_todo, tint = roles.quiet.mark) { Text(before, style = MaterialTheme.typography.titleMedium) }
            }
        }
        row.restsText?.let { Text(it, style = MaterialTheme.typography.bodyMedium, color = muted) }
        for (line in row.missing) {
            Marked(R.drawable.ic_question, tint = muted, size = 22.dp) { Text(line, style = MaterialTheme.typography.bodyLarge) }
        }
        val name = stringResource(R.string.reserve_read, row.title)
        val button = Modifier.fillMaxWidth().testTag("read-" + row.id).semantics { contentDescription = name }
        QuietButton(stringResource(R.string.reading_enter), onRead, button, R.drawable.ic_look)
    }
}

/** Four shapes, so that they differ without colour. */
@Composable
private fun Holds?.look(): VerdictLook = when (this) {
    Holds.YES -> VerdictLook(R.drawable.mark_clear, roles.clear)
    Holds.PERHAPS -> VerdictLook(R.drawable.mark_unknown, roles.unknown)
    Holds.NO -> VerdictLook(R.drawable.mark_blocked, roles.blocked)
    null -> VerdictLook(R.drawable.ic_question, roles.unknown)
}
