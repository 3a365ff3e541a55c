package org.stowfast.app.now

import androidx.activity.compose.BackHandler
import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.Column
import androidx.compose.foundation.layout.padding
import androidx.compose.foundation.lazy.items
import androidx.compose.material3.CircularProgressIndicator
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.runtime.LaunchedEffect
import androidx.compose.runtime.collectAsState
import androidx.compose.runtime.getValue
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.heading
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.unit.dp
import androidx.lifecycle.viewmodel.compose.viewModel
import org.stowfast.app.R
import org.stowfast.app.frame.Place
import org.stowfast.app.ui.MainButton
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.SectionHeading
import org.stowfast.app.ui.Trouble
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.WhenShown
import org.stowfast.app.ui.look
import org.stowfast.app.ui.roles
import org.stowfast.app.ui.trouble
import org.stowfast.engine.EmergencyRow
import org.stowfast.engine.NowPage
import org.stowfast.engine.RunRow
import org.stowfast.engine.TargetRow
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
        state.choosing -> Targets(state.targets, ways, onEvent)
        state.opened != null -> BlockerPage(state.opened, page?.run, ways, onEvent)
        page != null -> Vehicle(page, state, ways, go, onEvent)
        else -> Page(
            stringResource(R.string.app_name),
            ways,
            state.problem?.let { Trouble(it, R.string.try_again) { onEvent(NowEvent.Dismiss) } },
        ) {
            if (state.problem == null) {
                item { Panel { Working() } }
            } else {
                item { Door(R.drawable.ic_van, R.string.now_change_vehicle, null, "vehicles") { go(Place.VEHICLE) } }
            }
        }
    }
}

@Composable
private fun Working() {
    Column(verticalArrangement = Arrangement.spacedBy(12.dp)) {
        CircularProgressIndicator()
        Text(stringResource(R.string.loading), style = MaterialTheme.typography.bodyLarge)
    }
}

@Composable
private fun Vehicle(page: NowPage, state: NowState, ways: Ways, go: (Place) -> Unit, onEvent: (NowEvent) -> Unit) {
    Page(
        page.vehicleTitle,
        ways,
        trouble(state.problem) { onEvent(NowEvent.Dismiss) },
        bottom = { NextButton(page.run, go, onEvent) },
    ) {
        if (page.emergency.isNotEmpty()) item { Emergency(page.emergency) }
        item { Verdict(page) }
        if (page.items.isNotEmpty()) {
            item { SectionHeading(stringResource(if (page.moving) R.string.now_wrong else R.string.now_blocks)) }
            items(page.items, key = { it.variable + it.reason }) { Item(it) { onEvent(NowEvent.Inspect(it)) } }
        }
        page.fridge?.let { fridge ->
            item { FridgeCard(fridge, state.nowUtcMs) { go(Place.FRIDGE) } }
        }
        item {
            Door(R.drawable.ic_gauge, R.string.now_gauges, stringResource(R.string.now_gauges_about), "gauges") {
                go(Place.READING)
            }
        }
        item {
            Door(R.drawable.ic_clock, R.string.now_record, stringResource(R.string.now_record_about), "record") {
                go(Place.RECORD)
            }
        }
        item {
            Door(R.drawable.ic_van, R.string.now_change_vehicle, page.vehicleTitle, "vehicles") { go(Place.VEHICLE) }
        }
    }
}

@Composable
private fun NextButton(run: RunRow?, go: (Place) -> Unit, onEvent: (NowEvent) -> Unit) {
    when {
        run == null ->
            MainButton(stringResource(R.string.now_start), { onEvent(NowEvent.Choose) }, icon = R.drawable.ic_route)
        run.paused -> MainButton(
            stringResource(R.string.now_resume, run.targetTitle),
            { onEvent(NowEvent.Resume) },
            icon = R.drawable.ic_resume,
        )
        else -> MainButton(
            stringResource(R.string.now_continue, run.targetTitle),
            { go(Place.ROUTINE) },
            icon = R.drawable.ic_route,
        )
    }
}

@Composable
private fun Emergency(rows: List<EmergencyRow>) {
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
        }
    }
}

@Composable
private fun Verdict(page: NowPage) {
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
        if (page.placeTitle.isNotEmpty()) Text(page.placeTitle, style = MaterialTheme.typography.bodyMedium)
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

@Composable
private fun Door(icon: Int, title: Int, about: String?, tag: String, onClick: () -> Unit) {
    Panel(Modifier.testTag(tag), onClick = onClick, end = R.drawable.ic_forward) {
        Marked(icon, size = 28.dp) {
            Text(stringResource(title), style = MaterialTheme.typography.titleMedium)
            if (about != null) {
                Text(
                    about,
                    style = MaterialTheme.typography.bodyMedium,
                    color = MaterialTheme.colorScheme.onSurfaceVariant,
                )
            }
        }
    }
}

@Composable
private fun Targets(targets: List<TargetRow>, ways: Ways, onEvent: (NowEvent) -> Unit) {
    val home = { onEvent(NowEvent.Home) }
    BackHandler(onBack = home)
    Page(stringResource(R.string.now_choose), ways.copy(back = home)) {
        items(targets, key = { it.id }) { target ->
            Panel(Modifier.testTag("target-" + target.id), onClick = { onEvent(NowEvent.Open(target.id)) }) {
                Marked(if (target.road) R.drawable.ic_van else R.drawable.ic_route, size = 28.dp) {
                    Text(target.title, style = MaterialTheme.typography.titleMedium)
                    if (target.road) {
                        Text(stringResource(R.string.now_road), style = MaterialTheme.typography.bodyMedium)
                    }
                }
            }
        }
    }
}
