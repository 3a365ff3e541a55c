package org.stowfast.app.routine

import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.Column
import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.foundation.layout.padding
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
import androidx.compose.ui.semantics.LiveRegionMode
import androidx.compose.ui.semantics.heading
import androidx.compose.ui.semantics.liveRegion
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.unit.dp
import androidx.lifecycle.createSavedStateHandle
import androidx.lifecycle.viewmodel.compose.viewModel
import org.stowfast.app.R
import org.stowfast.app.share.routine
import org.stowfast.app.share.telling
import org.stowfast.app.ui.Beside
import org.stowfast.app.ui.Caution
import org.stowfast.app.ui.KeepScreenOn
import org.stowfast.app.ui.Lines
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.QuietButton
import org.stowfast.app.ui.SectionHeading
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.WhenShown
import org.stowfast.app.ui.look
import org.stowfast.app.ui.roles
import org.stowfast.app.ui.trouble
import org.stowfast.app.ui.wide
import org.stowfast.app.wait.AskAgain
import org.stowfast.app.wait.AskToNotify
import org.stowfast.engine.Odd
import org.stowfast.engine.OrderExact
import org.stowfast.engine.OrderGap
import org.stowfast.engine.OrderNone
import org.stowfast.engine.OrderProof
import org.stowfast.engine.RoutinePage
import org.stowfast.engine.VehicleEngine

/** Where a routine leads on to. */
data class RoutineWays(val share: (String) -> Unit, val card: (String) -> Unit, val drive: () -> Unit)

@Composable
fun RoutineRoute(engine: VehicleEngine, ways: Ways, sought: String?, on: RoutineWays, onClosed: () -> Unit) {
    val model = viewModel(key = "routine") { RoutineViewModel(engine, createSavedStateHandle()) }
    val state by model.state.collectAsState()
    KeepScreenOn(state.page?.let { !it.run.paused && !it.finished && it.partEnd == null } == true)
    AskToNotify(waiting = state.page?.waitsS != null)
    LaunchedEffect(state.closed) {
        if (state.closed) {
            model.onEvent(RoutineEvent.Left)
            onClosed()
        }
    }
    WhenShown(model) { model.onEvent(RoutineEvent.Shown) }
    AskAgain(state.page) { model.onEvent(RoutineEvent.Shown) }
    RoutineScreen(state, ways, sought, on, model::onEvent)
}

/** How many items stand before what comes later: a heading, and in one list also the head and the current gesture. */
private const val BEFORE_LATER = 1
private const val BEFORE_LATER_IN_ONE = 3

/** The routine under way, in a wide window beside what comes. It is shown from the step [sought], where somebody came for one. */
@Composable
fun RoutineScreen(state: RoutineState, ways: Ways, sought: String?, on: RoutineWays, onEvent: (RoutineEvent) -> Unit) {
    val page = state.page
    var asking by rememberSaveable { mutableStateOf(Ask.NOTHING) }
    var about by rememberSaveable { mutableStateOf<String?>(null) }
    val gesture = page?.current()
    val step = gesture?.steps?.find { it.id == about }
    val listed = gesture != null && gesture.alone == null
    if (page != null && asking.opens(step)) {
        val card = { fitting: String ->
            asking = Ask.NOTHING
            on.card(fitting)
        }
        return Asking(asking, step, listed, state.odd[about], ways, { asking = it }, card, onEvent)
    }
    val list = rememberLazyListState()
    val besides = rememberLazyListState()
    val wide = wide()
    var came by rememberSaveable(sought) { mutableStateOf(false) }
    LaunchedEffect(page?.run?.id) {
        val later = page?.later().orEmpty().indexOfFirst { it is Later.Next && sought in it.gesture.row.steps }
        if (!came && later >= 0) {
            if (wide) besides.scrollToItem(BEFORE_LATER + later) else list.scrollToItem(BEFORE_LATER_IN_ONE + later)
            came = true
        }
    }
    val ask = { what: Ask, stepId: String? ->
        about = stepId
        asking = what
    }
    Page(
        page?.run?.targetTitle ?: stringResource(R.string.routine_heading),
        ways,
        trouble(state.problem) { onEvent(RoutineEvent.Dismiss) },
        list,
        bottom = page?.let { { Bottom(it, state, on.drive, onEvent) } },
        told = telling(state.answered) { routine(state) },
        beside = page?.takeIf { it.underWay }?.let { Beside(besides) { later(it, sought, onEvent) } },
    ) {
        when {
            page == null -> if (state.answered) item { None() }
            page.finished -> item { Finished(page) }
            page.run.paused -> {
                item { Paused(page) }
                if (page.cannotMove.isNotEmpty()) item { Held(page, onEvent) }
            }
            else -> current(page, state.odd, ask, onEvent)
        }
    }
    if (asking == Ask.MORE && gesture != null) {
        val leave = { way: () -> Unit ->
            asking = Ask.NOTHING
            way()
        }
        MoreSheet(step, { asking = it }, { leave { on.share(page.run.targetId) } }, { leave { on.card(it) } }, onEvent)
    }
}

private val RoutinePage.underWay: Boolean get() = !finished && !run.paused

private fun LazyListScope.current(page: RoutinePage, odd: Map<String, Odd>, ask: (Ask, String?) -> Unit, onEvent: (RoutineEvent) -> Unit) {
    item { Head(page, onEvent) }
    page.current()?.let { gesture ->
        item(key = "now") {
            val step = gesture.alone
            if (step == null) CurrentList(gesture, odd, ask) else CurrentStep(step, page.untilUtcMs, ask)
        }
    }
}

private fun LazyListScope.later(page: RoutinePage, sought: String?, onEvent: (RoutineEvent) -> Unit) {
    rest(page.later(), sought, R.string.routine_then)
    if (page.stuck.isNotEmpty()) {
        item { SectionHeading(stringResource(R.string.routine_stuck)) }
        items(page.stuck, key = { "stuck-${it.entry}" }) { row ->
            Panel {
                Text(row.text, style = MaterialTheme.typography.bodyLarge)
                val held = page.cannotMove.any { it.entry == row.entry }
                QuietButton(stringResource(if (held) R.string.stuck_freed else R.string.routine_unstick), { onEvent(RoutineEvent.Unstick(row.entry)) })
            }
        }
    }
    item { Proof(page.proof) }
}

/** How far it is, and what to know before the current step. */
@Composable
private fun Head(page: RoutinePage, onEvent: (RoutineEvent) -> Unit) {
    Column(verticalArrangement = Arrangement.spacedBy(12.dp)) {
        // What waits says itself for how long.
        if (page.untilUtcMs == null) Progress(page)
        page.partEnd?.let { PartEnd(it) }
        if (page.resumedFromPause && page.done.isNotEmpty()) {
            Panel(tone = roles.unknown) {
                Marked(R.drawable.ic_resume, tint = roles.unknown.mark) {
                    Text(
                        stringResource(R.string.routine_reread, page.done.first().text),
                        style = MaterialTheme.typography.bodyLarge,
                    )
                }
            }
        }
        Held(page, onEvent)
        for (warning in page.warnings) Caution(warning)
    }
}

/** Why the target cannot be reached, and of what cannot be moved the word that it moves again. */
@Composable
private fun Held(page: RoutinePage, onEvent: (RoutineEvent) -> Unit) {
    Column(verticalArrangement = Arrangement.spacedBy(12.dp)) {
        if (page.impossible.isNotEmpty()) Impossible(page.impossible)
        for (row in page.cannotMove) {
            val freed = Modifier.fillMaxWidth().testTag("freed-" + row.entry)
            QuietButton(stringResource(R.string.stuck_freed_this, row.title), { onEvent(RoutineEvent.Unstick(row.entry)) }, freed, R.drawable.ic_undo)
        }
    }
}

/** Why the target cannot be reached. */
@Composable
fun Impossible(reasons: List<String>) {
    Panel(Modifier.testTag("impossible"), tone = roles.blocked) {
        Marked(R.drawable.mark_blocked, tint = roles.blocked.mark) {
            Text(stringResource(R.string.routine_impossible), style = MaterialTheme.typography.titleMedium)
        }
        Lines(reasons)
    }
}

@Composable
private fun Progress(page: RoutinePage) {
    Text(
        if (page.gestureCount == 0) {
            page.headline
        } else {
            stringResource(R.string.routine_progress, page.gestureCount, duration(page.elapsedS))
        },
        Modifier.padding(horizontal = 4.dp).testTag("progress"),
        style = MaterialTheme.typography.titleMedium,
    )
}

/** The end of a part is announced: what is now true, and how long nothing is to be done. */
@Composable
private fun PartEnd(text: String) {
    Panel(Modifier.testTag("part-end").semantics(mergeDescendants = true) { liveRegion = LiveRegionMode.Assertive }, tone = roles.clear) {
        Marked(R.drawable.ic_do, tint = roles.clear.mark, size = 28.dp) {
            Text(text, style = MaterialTheme.typography.titleMedium)
        }
    }
}

/** How good the order is, where there is one. */
@Composable
private fun Proof(proof: OrderProof) {
    val text = when (proof) {
        is OrderExact -> stringResource(R.string.routine_exact)
        is OrderGap -> stringResource(R.string.routine_gap, duration(proof.gapS))
        is OrderNone -> return
    }
    Text(
        text,
        Modifier.padding(horizontal = 4.dp),
        style = MaterialTheme.typography.bodyMedium,
        color = MaterialTheme.colorScheme.onSurfaceVariant,
    )
}

@Composable
private fun None() {
    Panel { Text(stringResource(R.string.routine_none), style = MaterialTheme.typography.bodyLarge) }
}

@Composable
private fun Paused(page: RoutinePage) {
    Panel(tone = roles.quiet) {
        Marked(R.drawable.ic_pause, tint = roles.quiet.mark, size = 40.dp) {
            Text(stringResource(R.string.routine_paused), style = MaterialTheme.typography.headlineMedium)
        }
        Text(stringResource(R.string.routine_paused_about), style = MaterialTheme.typography.bodyLarge)
    }
}

/** The end is announced, and says what is now true. */
@Composable
private fun Finished(page: RoutinePage) {
    val look = page.verdict.look()
    Panel(
        Modifier.testTag("finished").semantics(mergeDescendants = true) { liveRegion = LiveRegionMode.Assertive },
        tone = look.tone,
    ) {
        Marked(look.mark, tint = look.tone.mark, size = 72.dp, gap = 16.dp) {
            Text(
                stringResource(R.string.routine_finished),
                Modifier.semantics { heading() },
                style = MaterialTheme.typography.displaySmall,
            )
            Text(page.run.targetTitle, style = MaterialTheme.typography.titleMedium)
        }
        Text(page.headline, style = MaterialTheme.typography.titleLarge)
        Text(page.endText, style = MaterialTheme.typography.bodyLarge)
    }
}
