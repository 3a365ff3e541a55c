package org.stowfast.app.routine

import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.Column
import androidx.compose.foundation.layout.padding
import androidx.compose.foundation.lazy.LazyListScope
import androidx.compose.foundation.lazy.items
import androidx.compose.foundation.lazy.rememberLazyListState
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.runtime.DisposableEffect
import androidx.compose.runtime.LaunchedEffect
import androidx.compose.runtime.collectAsState
import androidx.compose.runtime.getValue
import androidx.compose.runtime.mutableStateOf
import androidx.compose.runtime.saveable.rememberSaveable
import androidx.compose.runtime.setValue
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.LocalView
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.LiveRegionMode
import androidx.compose.ui.semantics.heading
import androidx.compose.ui.semantics.liveRegion
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.unit.dp
import androidx.lifecycle.viewmodel.compose.viewModel
import org.stowfast.app.R
import org.stowfast.app.ui.Caution
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
import org.stowfast.engine.OrderExact
import org.stowfast.engine.OrderGap
import org.stowfast.engine.OrderNone
import org.stowfast.engine.OrderProof
import org.stowfast.engine.RoutinePage
import org.stowfast.engine.VehicleEngine

@Composable
fun RoutineRoute(engine: VehicleEngine, ways: Ways, sought: String?, onClosed: () -> Unit) {
    val model = viewModel(key = "routine") { RoutineViewModel(engine) }
    val state by model.state.collectAsState()
    val view = LocalView.current
    DisposableEffect(view) {
        view.keepScreenOn = true
        onDispose { view.keepScreenOn = false }
    }
    LaunchedEffect(state.closed) {
        if (state.closed) {
            model.onEvent(RoutineEvent.Left)
            onClosed()
        }
    }
    WhenShown(model) { model.onEvent(RoutineEvent.Shown) }
    RoutineScreen(state, ways, sought, model::onEvent)
}

/** How many items stand before the steps that come later: the head, the current step and a heading. */
private const val BEFORE_LATER = 3

/** The routine under way. It is shown from the step [sought], where somebody came for one. */
@Composable
fun RoutineScreen(state: RoutineState, ways: Ways, sought: String?, onEvent: (RoutineEvent) -> Unit) {
    val page = state.page
    var asking by rememberSaveable { mutableStateOf(Ask.NOTHING) }
    val step = page?.steps?.firstOrNull()
    if (asking != Ask.NOTHING && asking != Ask.MORE && step != null) {
        return Asking(asking, step, ways, onEvent) { asking = Ask.NOTHING }
    }
    val list = rememberLazyListState()
    var came by rememberSaveable(sought) { mutableStateOf(false) }
    LaunchedEffect(page?.run?.id) {
        val later = page?.steps.orEmpty().drop(1).indexOfFirst { it.id == sought }
        if (!came && later >= 0) {
            list.scrollToItem(BEFORE_LATER + later)
            came = true
        }
    }
    Page(
        page?.run?.targetTitle ?: stringResource(R.string.routine_heading),
        ways,
        trouble(state.problem) { onEvent(RoutineEvent.Dismiss) },
        list,
        bottom = page?.let { { Bottom(it, state.last(), onEvent) } },
    ) {
        when {
            page == null -> if (state.answered) item { None() }
            page.finished -> item { Finished(page) }
            page.run.paused -> item { Paused(page) }
            else -> underWay(page, sought, { asking = it }, onEvent)
        }
    }
    if (asking == Ask.MORE && step != null) MoreSheet(step, { asking = it }, onEvent)
}

private fun LazyListScope.underWay(page: RoutinePage, sought: String?, ask: (Ask) -> Unit, onEvent: (RoutineEvent) -> Unit) {
    item { Head(page) }
    page.steps.firstOrNull()?.let { step -> item(key = "now") { CurrentStep(step, ask) } }
    rest(page.steps.drop(1), sought)
    if (page.stuck.isNotEmpty()) {
        item { SectionHeading(stringResource(R.string.routine_stuck)) }
        items(page.stuck, key = { "stuck-${it.entry}" }) { row ->
            Panel {
                Text(row.text, style = MaterialTheme.typography.bodyLarge)
                QuietButton(stringResource(R.string.routine_unstick), { onEvent(RoutineEvent.Unstick(row.entry)) })
            }
        }
    }
    item { Proof(page.proof) }
}

/** How far it is, and what to know before the current step. */
@Composable
private fun Head(page: RoutinePage) {
    Column(verticalArrangement = Arrangement.spacedBy(12.dp)) {
        Progress(page)
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
        if (page.impossible.isNotEmpty()) {
            Panel(tone = roles.blocked) {
                Marked(R.drawable.mark_blocked, tint = roles.blocked.mark) {
                    Text(stringResource(R.string.routine_impossible), style = MaterialTheme.typography.titleMedium)
                }
                Lines(page.impossible)
            }
        }
        for (warning in page.warnings) Caution(warning)
    }
}

@Composable
private fun Progress(page: RoutinePage) {
    Text(
        if (page.steps.isEmpty()) {
            page.headline
        } else {
            stringResource(R.string.routine_progress, page.run.doneCount, page.run.leftCount)
        },
        Modifier.padding(horizontal = 4.dp),
        style = MaterialTheme.typography.titleMedium,
    )
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
