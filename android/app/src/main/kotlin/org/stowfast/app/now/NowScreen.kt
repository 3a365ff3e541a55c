package org.stowfast.app.now

import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.foundation.layout.heightIn
import androidx.compose.foundation.lazy.LazyListScope
import androidx.compose.foundation.lazy.LazyListState
import androidx.compose.foundation.lazy.items
import androidx.compose.foundation.lazy.rememberLazyListState
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
import androidx.compose.ui.unit.dp
import androidx.lifecycle.viewmodel.compose.viewModel
import org.stowfast.app.R
import org.stowfast.app.frame.Place
import org.stowfast.app.share.now
import org.stowfast.app.ui.Beside
import org.stowfast.app.ui.Door
import org.stowfast.app.ui.MainButton
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.QuietButton
import org.stowfast.app.ui.Trouble
import org.stowfast.app.ui.UnderThumb
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.WhenShown
import org.stowfast.app.ui.Working
import org.stowfast.app.ui.roles
import org.stowfast.app.ui.trouble
import org.stowfast.app.ui.wide
import org.stowfast.app.wait.AskToNotify
import org.stowfast.engine.NowPage
import org.stowfast.engine.RunRow
import org.stowfast.engine.VehicleEngine
import org.stowfast.engine.VerdictKind

/** Where the first page leads: to another page, and to the way to a target. */
data class NowWays(val go: (Place) -> Unit, val preview: (String) -> Unit)

@Composable
fun NowRoute(engine: VehicleEngine, ways: Ways, on: NowWays, leave: Boolean, onLeaving: () -> Unit, goToStep: (String?) -> Unit) {
    val model = viewModel(key = "now") { NowViewModel(engine) }
    val state by model.state.collectAsState()
    LaunchedEffect(state.running) {
        if (state.running) {
            goToStep(state.opened?.step?.id)
            model.onEvent(NowEvent.Left)
        }
    }
    LaunchedEffect(leave) {
        if (leave) {
            model.onEvent(NowEvent.Leave)
            onLeaving()
        }
    }
    LaunchedEffect(state.vehicleMissing) {
        if (state.vehicleMissing) on.go(Place.VEHICLE)
    }
    WhenShown(model) { model.onEvent(NowEvent.Shown) }
    AskToNotify(waiting = state.page?.remindUtcMs != null)
    NowScreen(state, ways, on.copy(go = { if (it == Place.ROUTINE) goToStep(null) else on.go(it) }), model::onEvent)
}

@Composable
fun NowScreen(state: NowState, ways: Ways, on: NowWays, onEvent: (NowEvent) -> Unit) {
    val page = state.page
    // Whoever comes back from a thing in the way finds the page as it was.
    val list = rememberLazyListState()
    val besides = rememberLazyListState()
    var all by rememberSaveable { mutableStateOf(false) }
    var road by rememberSaveable { mutableStateOf(false) }
    when {
        state.opened != null -> BlockerPage(state.opened, page?.run, ways, onEvent)
        state.leaving && page != null -> DrivePage(page, state.card, ways, onEvent)
        page != null -> {
            val foldable = !wide()
            val onAll = if (foldable) ({ all = !all }) else null
            val stands = page.stands.takeIf { !page.moving }
            val lists = NowLists(list, besides) {
                if (stands == null) {
                    inTheWay(page, all || !foldable, onAll, onEvent)
                } else {
                    left(stands, all || !foldable, onAll, on.preview, onEvent)
                    folded(page, road, { road = !road }, onEvent)
                }
            }
            Vehicle(page, state, if (all && foldable) ways.copy(back = { all = false }) else ways, lists, on, onEvent)
        }
        else -> Page(
            stringResource(R.string.app_name),
            ways,
            state.problem?.let { Trouble(it, R.string.try_again) { onEvent(NowEvent.Dismiss) } },
        ) {
            if (state.problem == null) {
                item { Working() }
            } else {
                item { Door(R.drawable.ic_van, R.string.now_change_vehicle, null, "vehicles") { on.go(Place.VEHICLE) } }
            }
        }
    }
}

/** Where the lists of the first page are scrolled to, and what stands in the way. */
private class NowLists(val list: LazyListState, val besides: LazyListState, val inTheWay: LazyListScope.() -> Unit)

/**
 * What the vehicle is ready for and the doors come first, then what stands in the way and what is known. In a wide window the
 * doors and what is known stand to the right, so that neither list hides the other.
 */
@Composable
private fun Vehicle(page: NowPage, state: NowState, ways: Ways, lists: NowLists, on: NowWays, onEvent: (NowEvent) -> Unit) {
    val wide = wide()
    val alarm = page.emergency.isNotEmpty()
    Page(
        page.vehicleTitle,
        ways,
        trouble(state.problem) { onEvent(NowEvent.Dismiss) },
        lists.list,
        bottom = { Next(page, state.road, on, onEvent) },
        told = { now(state) },
        beside = Beside(lists.besides) {
            if (wide) doors(page, on.go)
            known(page, state.nowUtcMs, on.go, onEvent)
        },
    ) {
        if (alarm) item { Emergency(page.emergency, onEvent) }
        page.stands?.let { item { Stands(it) } }
        when {
            alarm -> item { LesserVerdict(page) }
            page.stands?.finished != true -> item { Verdict(page) }
        }
        items(page.reminders, key = { "remind-" + it.id }) { row -> Reminder(row) { on.go(Place.RESERVES) } }
        // On the road the reason to stop stands right below the word to stop.
        if (page.moving) lists.inTheWay(this)
        driveCard(page, on.go)
        if (!wide) doors(page, on.go)
        if (!page.moving) lists.inTheWay(this)
    }
}

/**
 * What comes next under the thumb: while an alarm sounds what to do, on the road to arrive, laid up to come back, with a
 * clear list to drive off, else the routine.
 */
@Composable
private fun Next(page: NowPage, road: String?, on: NowWays, onEvent: (NowEvent) -> Unit) {
    val clear = page.verdict == VerdictKind.CLEAR
    val run = page.run?.takeIf { it.targetId != road }
    val main = Modifier.testTag("next")
    val stands = page.stands
    when {
        page.emergency.isNotEmpty() -> MainButton(
            stringResource(R.string.now_emergency), { on.go(Place.LIFE) }, main, R.drawable.ic_emergency, tone = roles.emergency,
        )
        page.moving -> UnderThumb({ RoutineButton(page.run, quiet = true, on.go, onEvent) }) {
            MainButton(stringResource(R.string.now_arrived), { on.go(Place.ARRIVE) }, main, icon = R.drawable.ic_place)
        }
        page.run == null && stands != null -> UnderThumb({ RoutineButton(null, quiet = true, on.go, onEvent) }) {
            val text = if (stands.finished) stands.targetTitle else stringResource(R.string.now_continue, stands.targetTitle)
            MainButton(text, { on.preview(stands.targetId) }, main, icon = R.drawable.ic_route)
        }
        clear && run == null -> UnderThumb({ RoutineButton(page.run, quiet = true, on.go, onEvent) }) {
            MainButton(stringResource(R.string.drive_off), { onEvent(NowEvent.Leave) }, main, icon = R.drawable.ic_van)
        }
        clear -> UnderThumb({ LesserButton(stringResource(R.string.drive_off), R.drawable.ic_van) { onEvent(NowEvent.Leave) } }) {
            RoutineButton(page.run, quiet = false, on.go, onEvent)
        }
        else -> RoutineButton(page.run, quiet = false, on.go, onEvent)
    }
}

@Composable
private fun RoutineButton(run: RunRow?, quiet: Boolean, go: (Place) -> Unit, onEvent: (NowEvent) -> Unit) {
    val text = when {
        run == null -> stringResource(R.string.now_start)
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
