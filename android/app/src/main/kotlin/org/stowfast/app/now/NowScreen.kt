package org.stowfast.app.now

import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.ExperimentalLayoutApi
import androidx.compose.foundation.layout.FlowRow
import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.foundation.layout.heightIn
import androidx.compose.foundation.layout.padding
import androidx.compose.foundation.lazy.LazyListScope
import androidx.compose.foundation.lazy.items
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
import org.stowfast.app.frame.Place
import org.stowfast.app.place.PLACE_SEPARATOR
import org.stowfast.app.share.now
import org.stowfast.app.ui.Door
import org.stowfast.app.ui.MainButton
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.QuietButton
import org.stowfast.app.ui.SectionHeading
import org.stowfast.app.ui.Trouble
import org.stowfast.app.ui.UnderThumb
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.WhenShown
import org.stowfast.app.ui.Working
import org.stowfast.app.ui.look
import org.stowfast.app.ui.roles
import org.stowfast.app.ui.trouble
import org.stowfast.engine.EmergencyRow
import org.stowfast.engine.NowPage
import org.stowfast.engine.RunRow
import org.stowfast.engine.VehicleEngine
import org.stowfast.engine.VerdictKind

@Composable
fun NowRoute(engine: VehicleEngine, ways: Ways, go: (Place) -> Unit, goToStep: (String?) -> Unit) {
    val model = viewModel(key = "now") { NowViewModel(engine) }
    val state by model.state.collectAsState()
    LaunchedEffect(state.running) {
        if (state.running) {
            goToStep(state.opened?.step?.id)
            model.onEvent(NowEvent.Left)
        }
    }
    LaunchedEffect(state.vehicleMissing) {
        if (state.vehicleMissing) go(Place.VEHICLE)
    }
    WhenShown(model) { model.onEvent(NowEvent.Shown) }
    NowScreen(state, ways, { if (it == Place.ROUTINE) goToStep(null) else go(it) }, model::onEvent)
}

@Composable
fun NowScreen(state: NowState, ways: Ways, go: (Place) -> Unit, onEvent: (NowEvent) -> Unit) {
    val page = state.page
    when {
        state.opened != null -> BlockerPage(state.opened, page?.run, ways, onEvent)
        state.leaving && page != null -> DrivePage(page, state.card, ways, onEvent)
        page != null -> Vehicle(page, state, ways, go, onEvent)
        else -> Page(
            stringResource(R.string.app_name),
            ways,
            state.problem?.let { Trouble(it, R.string.try_again) { onEvent(NowEvent.Dismiss) } },
        ) {
            if (state.problem == null) {
                item { Working() }
            } else {
                item { Door(R.drawable.ic_van, R.string.now_change_vehicle, null, "vehicles") { go(Place.VEHICLE) } }
            }
        }
    }
}

@Composable
private fun Vehicle(page: NowPage, state: NowState, ways: Ways, go: (Place) -> Unit, onEvent: (NowEvent) -> Unit) {
    Page(
        page.vehicleTitle,
        ways,
        trouble(state.problem) { onEvent(NowEvent.Dismiss) },
        bottom = { Next(page, go, onEvent) },
        told = { now(state) },
    ) {
        if (page.emergency.isNotEmpty()) item { Emergency(page.emergency, onEvent) }
        item { Verdict(page) }
        if (page.items.isNotEmpty()) {
            item { SectionHeading(stringResource(if (page.moving) R.string.now_wrong else R.string.now_blocks)) }
            items(page.items) { Item(it) { onEvent(NowEvent.Inspect(it)) } }
        }
        page.fridge?.let { fridge ->
            item { FridgeCard(fridge, state.nowUtcMs) { go(Place.FRIDGE) } }
        }
        doors(page, go, onEvent)
    }
}

private fun LazyListScope.doors(page: NowPage, go: (Place) -> Unit, onEvent: (NowEvent) -> Unit) {
    item {
        Door(R.drawable.ic_place, R.string.place_heading, page.nearby().ifEmpty { stringResource(R.string.place_none) }, "where") { go(Place.WHERE) }
    }
    if (!page.moving && page.verdict != VerdictKind.CLEAR) {
        item { Door(R.drawable.ic_van, R.string.drive_anyway, stringResource(R.string.drive_anyway_about), "drive-anyway") { onEvent(NowEvent.Leave) } }
    }
    if (page.moving || page.verdict == VerdictKind.CLEAR) {
        item { Door(R.drawable.ic_height, R.string.drive_card_heading, stringResource(R.string.drive_card_about), "drive-card") { go(Place.DRIVE_CARD) } }
    }
    item { Door(R.drawable.ic_red, R.string.red_heading, stringResource(R.string.red_door), "red") { go(Place.RED) } }
    item { Door(R.drawable.ic_card, R.string.cards_heading, stringResource(R.string.cards_door), "cards") { go(Place.CARDS) } }
    item { Door(R.drawable.ic_gauge, R.string.reserve_heading, stringResource(R.string.reserve_door), "reserves") { go(Place.RESERVES) } }
    item { Door(R.drawable.ic_list, R.string.things_heading, stringResource(R.string.now_things_about), "things") { go(Place.THINGS) } }
    item { Door(R.drawable.ic_clock, R.string.now_record, stringResource(R.string.now_record_about), "record") { go(Place.RECORD) } }
    item { Door(R.drawable.ic_van, R.string.now_change_vehicle, page.vehicleTitle, "vehicles") { go(Place.VEHICLE) } }
    item { Door(R.drawable.ic_settings, R.string.settings_heading, stringResource(R.string.settings_door), "settings") { go(Place.SETTINGS) } }
}

/** How much of what is known of the place stands on the first page; the rest is a tap away. */
private const val PLACE_WORDS = 3

fun NowPage.nearby(): String = placeTitle.split(PLACE_SEPARATOR).take(PLACE_WORDS).joinToString(PLACE_SEPARATOR)

/** What comes next under the thumb: on the road to arrive, with a clear list to drive off, else the routine. */
@Composable
private fun Next(page: NowPage, go: (Place) -> Unit, onEvent: (NowEvent) -> Unit) {
    val clear = page.verdict == VerdictKind.CLEAR
    val main = Modifier.testTag("next")
    when {
        page.moving -> UnderThumb({ RoutineButton(page.run, quiet = true, go, onEvent) }) {
            MainButton(stringResource(R.string.now_arrived), { go(Place.ARRIVE) }, main, icon = R.drawable.ic_place)
        }
        clear && page.run == null -> UnderThumb({ RoutineButton(null, quiet = true, go, onEvent) }) {
            MainButton(stringResource(R.string.drive_off), { onEvent(NowEvent.Leave) }, main, icon = R.drawable.ic_van)
        }
        clear -> UnderThumb({ LesserButton(stringResource(R.string.drive_off), R.drawable.ic_van) { onEvent(NowEvent.Leave) } }) {
            RoutineButton(page.run, quiet = false, go, onEvent)
        }
        else -> RoutineButton(page.run, quiet = false, go, onEvent)
    }
}

@Composable
private fun RoutineButton(run: RunRow?, quiet: Boolean, go: (Place) -> Unit, onEvent: (NowEvent) -> Unit) {
    val text = when {
        run == null -> stringResource(R.string.now_start)
        run.paused -> stringResource(R.string.now_resume, run.targetTitle)
        else -> stringResource(R.string.now_continue, run.targetTitle)
    }
    val icon = if (run?.paused == true) R.drawable.ic_resume else R.drawable.ic_route
    val act = {
        when {
            run == null -> go(Place.TARGET)
            run.paused -> onEvent(NowEvent.Resume)
            else -> go(Place.ROUTINE)
        }
    }
    if (quiet) LesserButton(text, icon, act) else MainButton(text, act, icon = icon)
}

@Composable
private fun LesserButton(text: String, icon: Int, onClick: () -> Unit) =
    QuietButton(text, onClick, Modifier.fillMaxWidth().heightIn(min = 64.dp), icon)

@Composable
private fun Emergency(rows: List<EmergencyRow>, onEvent: (NowEvent) -> Unit) {
    val look = VerdictKind.BLOCKED.look()
    Panel(Modifier.testTag("emergency"), tone = look.tone) {
        for (row in rows) {
            val text = row.text
            Text(
                text.substringBefore(". ").removeSuffix(".") + ".",
                Modifier.semantics { heading() },
                style = MaterialTheme.typography.headlineMedium,
            )
            Text(text.substringAfter(". ", ""), style = MaterialTheme.typography.titleMedium)
            Text(row.title, style = MaterialTheme.typography.bodyMedium)
            if (row.choices.isNotEmpty()) Word(row, onEvent)
        }
    }
}

/** Only somebody's word ends it, and never a stray tap: the choices open first. */
@OptIn(ExperimentalLayoutApi::class)
@Composable
private fun Word(row: EmergencyRow, onEvent: (NowEvent) -> Unit) {
    var open by rememberSaveable(row.variable) { mutableStateOf(false) }
    if (!open) return QuietButton(stringResource(R.string.now_say), { open = true }, Modifier.testTag("say"))
    FlowRow(horizontalArrangement = Arrangement.spacedBy(8.dp), verticalArrangement = Arrangement.spacedBy(8.dp)) {
        for (choice in row.choices) {
            QuietButton(choice.text, { onEvent(NowEvent.Say(row.variable, choice.id)) }, Modifier.testTag("say-" + choice.id))
        }
    }
}

/** What the list says, and what that rests on. */
@Composable
fun Verdict(page: NowPage) {
    val look = page.look()
    Panel(Modifier.testTag("verdict"), tone = look.tone) {
        Marked(look.mark, Modifier.padding(vertical = 4.dp), tint = look.tone.mark, size = 56.dp, gap = 16.dp) {
            Text(
                page.headline,
                Modifier.semantics { heading() },
                style = MaterialTheme.typography.headlineMedium,
            )
        }
        if (page.detail.isNotEmpty()) Text(page.detail, style = MaterialTheme.typography.titleMedium)
        page.oldestLookText?.let {
            Marked(R.drawable.ic_look, tint = look.tone.mark, size = 20.dp) {
                Text(stringResource(R.string.now_oldest_look, it), style = MaterialTheme.typography.bodyMedium)
            }
        }
        if (page.clockChanged) {
            Marked(R.drawable.ic_clock, tint = roles.unknown.mark, size = 20.dp) {
                Text(stringResource(R.string.now_clock_changed), style = MaterialTheme.typography.bodyMedium)
            }
        }
    }
}
