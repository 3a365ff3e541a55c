package org.stowfast.app.preview

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
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.selected
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.unit.dp
import androidx.lifecycle.viewmodel.compose.viewModel
import org.stowfast.app.R
import org.stowfast.app.routine.BeginButton
import org.stowfast.app.routine.Impossible
import org.stowfast.app.routine.duration
import org.stowfast.app.routine.rest
import org.stowfast.app.routine.whole
import org.stowfast.app.share.preview
import org.stowfast.app.share.telling
import org.stowfast.app.ui.Beside
import org.stowfast.app.ui.Caution
import org.stowfast.app.ui.Lines
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.SectionHeading
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.WhenShown
import org.stowfast.app.ui.Working
import org.stowfast.app.ui.look
import org.stowfast.app.ui.roles
import org.stowfast.app.ui.trouble
import org.stowfast.engine.RoutinePage
import org.stowfast.engine.VariantRow
import org.stowfast.engine.VehicleEngine

@Composable
fun PreviewRoute(engine: VehicleEngine, ways: Ways, aim: String, onShare: (String) -> Unit, onBegun: () -> Unit) {
    val model = viewModel(key = "preview-$aim") { PreviewViewModel(engine, aim) }
    val state by model.state.collectAsState()
    LaunchedEffect(state.begun) {
        if (state.begun) {
            model.onEvent(PreviewEvent.Left)
            onBegun()
        }
    }
    WhenShown(model) { model.onEvent(PreviewEvent.Shown) }
    PreviewScreen(state, ways, { onShare(state.picked ?: aim) }, model::onEvent)
}

/** The way to a target before it is begun: how long it takes, in which variants it can be had, and all of its stops. */
@Composable
fun PreviewScreen(state: PreviewState, ways: Ways, onShare: () -> Unit, onEvent: (PreviewEvent) -> Unit) {
    val way = state.way
    val besides = rememberLazyListState()
    Page(
        way?.run?.targetTitle ?: stringResource(R.string.preview_heading),
        ways,
        trouble(state.problem) { onEvent(PreviewEvent.Dismiss) },
        bottom = way?.takeIf { it.steps.isNotEmpty() }?.let {
            { BeginButton(it, state.run, state.runs(), stringResource(R.string.now_continue, it.run.targetTitle)) { onEvent(PreviewEvent.Begin) } }
        },
        told = telling(way != null) { preview(state) },
        beside = way?.takeIf { it.steps.isNotEmpty() }?.let { Beside(besides) { rest(it.whole(), null, R.string.preview_steps) } },
    ) {
        when {
            way != null -> shown(way, state, onShare, onEvent)
            state.problem == null -> item { Working() }
        }
    }
}

private fun LazyListScope.shown(way: RoutinePage, state: PreviewState, onShare: () -> Unit, onEvent: (PreviewEvent) -> Unit) {
    item { Summary(way) }
    if (way.impossible.isNotEmpty()) item { Impossible(way.impossible) }
    items(way.warnings) { Caution(it) }
    if (state.variants.isNotEmpty()) {
        item { SectionHeading(stringResource(R.string.preview_variants)) }
        items(state.variants, key = { it.id }) { variant ->
            Variant(variant, variant.id == state.shown()) { onEvent(PreviewEvent.Pick(variant.id)) }
        }
    }
    if (way.steps.isNotEmpty()) {
        item {
            Panel(Modifier.testTag("share"), onClick = onShare, end = R.drawable.ic_forward) {
                Marked(R.drawable.ic_two, size = 28.dp) {
                    Text(stringResource(R.string.shared_heading), style = MaterialTheme.typography.titleMedium)
                }
            }
        }
    }
}

@Composable
private fun Summary(way: RoutinePage) {
    val look = way.verdict.look()
    Panel(Modifier.testTag("summary"), tone = if (way.steps.isEmpty()) look.tone else roles.quiet) {
        Marked(if (way.steps.isEmpty()) look.mark else R.drawable.ic_route, tint = if (way.steps.isEmpty()) look.tone.mark else roles.quiet.mark, size = 32.dp) {
            Text(
                if (way.steps.isEmpty()) way.headline else stringResource(R.string.preview_takes, way.steps.size, way.gestureCount, duration(way.elapsedS)),
                style = MaterialTheme.typography.titleMedium,
            )
        }
        if (way.endText.isNotEmpty()) Text(way.endText, style = MaterialTheme.typography.bodyLarge)
    }
}

/** One way to want it; the one that is shown is marked, and says so. */
@Composable
private fun Variant(variant: VariantRow, picked: Boolean, onClick: () -> Unit) {
    Panel(
        Modifier.testTag("variant-" + variant.id).semantics { selected = picked },
        tone = if (picked) roles.quiet else null,
        onClick = onClick,
    ) {
        Marked(if (picked) R.drawable.ic_do else R.drawable.ic_todo, size = 26.dp) {
            Text(variant.title, style = MaterialTheme.typography.titleMedium)
            Text(variant.about, style = MaterialTheme.typography.bodyMedium)
            if (variant.impossible.isEmpty()) {
                Text(
                    stringResource(R.string.preview_takes, variant.stepCount, variant.gestureCount, duration(variant.elapsedS)),
                    style = MaterialTheme.typography.bodyMedium,
                )
            } else if (!picked) {
                // Of the one that is shown they stand above.
                Lines(variant.impossible, color = roles.blocked.mark)
            }
        }
    }
}
