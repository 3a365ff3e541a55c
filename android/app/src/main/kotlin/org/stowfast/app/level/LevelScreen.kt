package org.stowfast.app.level

import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.foundation.layout.heightIn
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
import androidx.compose.runtime.remember
import androidx.compose.runtime.saveable.rememberSaveable
import androidx.compose.runtime.setValue
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.LocalContext
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.LiveRegionMode
import androidx.compose.ui.semantics.heading
import androidx.compose.ui.semantics.liveRegion
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.unit.dp
import androidx.lifecycle.compose.LifecycleResumeEffect
import androidx.lifecycle.viewmodel.compose.viewModel
import org.stowfast.app.R
import org.stowfast.app.reckon.Line
import org.stowfast.app.reckon.look
import org.stowfast.app.share.level
import org.stowfast.app.share.telling
import org.stowfast.app.ui.Beside
import org.stowfast.app.ui.Caution
import org.stowfast.app.ui.KeepScreenOn
import org.stowfast.app.ui.Lines
import org.stowfast.app.ui.MainButton
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.QuietButton
import org.stowfast.app.ui.SectionHeading
import org.stowfast.app.ui.UnderThumb
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.WhenShown
import org.stowfast.app.ui.Working
import org.stowfast.app.ui.roles
import org.stowfast.app.ui.trouble
import org.stowfast.engine.LevelPage
import org.stowfast.engine.Pick
import org.stowfast.engine.VehicleEngine

/** [use] is given what the question of the level is to be asked with; nothing where it is to be typed. */
@Composable
fun LevelRoute(engine: VehicleEngine, ways: Ways, use: (List<Pick>) -> Unit) {
    val context = LocalContext.current
    val motion = remember(context) { Motion(context) }
    val model = viewModel(key = "level") { LevelViewModel(engine, motion.there) }
    val state by model.state.collectAsState()
    var opened by rememberSaveable { mutableStateOf(false) }
    LaunchedEffect(model) {
        if (!opened) model.onEvent(LevelEvent.Opened)
        opened = true
    }
    WhenShown(model) { model.onEvent(LevelEvent.Shown) }
    LifecycleResumeEffect(model, state.held) {
        val stop = if (state.held) null else motion.listen(model::feel)
        onPauseOrDispose { stop?.invoke() }
    }
    KeepScreenOn(state.sensor && !state.held)
    LevelScreen(state, ways, use, model::onEvent)
}

/** How the vehicle leans, as the phone that lies in it feels it: the verdict, the wheels, and how the phone is to lie. */
@Composable
fun LevelScreen(state: LevelState, ways: Ways, use: (List<Pick>) -> Unit, onEvent: (LevelEvent) -> Unit) {
    val page = state.page
    val said = Beside(rememberLazyListState()) { if (page != null) leaning(page, onEvent) }
    val bottom: (@Composable () -> Unit)? = page?.let { { Bottom(it, state.held, use, onEvent) } }
    Page(
        stringResource(R.string.level_heading), ways, trouble(state.problem) { onEvent(LevelEvent.Dismiss) },
        bottom = bottom, told = telling(page != null) { level(state) }, beside = said.takeIf { page != null },
    ) {
        if (page != null) {
            item(key = "verdict") { Verdict(page, state.held) }
            if (page.lean.isNotEmpty()) item(key = "plan") { LevelPlan(page) }
        } else if (!state.sensor) {
            item { Missing(stringResource(R.string.level_none)) }
            item { QuietButton(stringResource(R.string.level_type), { use(emptyList()) }, Modifier.fillMaxWidth().testTag("type-it")) }
        } else if (state.problem == null) {
            item { Working() }
        }
    }
}

/** It is read aloud where the verdict changes, and not for each number. */
@Composable
private fun Verdict(page: LevelPage, held: Boolean) {
    val look = page.mark.look()
    Panel(Modifier.testTag("verdict"), tone = look.tone) {
        Marked(look.mark, tint = look.tone.mark, size = 36.dp) {
            Text(page.verdictText, Modifier.semantics { heading(); liveRegion = LiveRegionMode.Polite }, style = MaterialTheme.typography.titleLarge)
            if (page.mark == null && page.lean.isNotEmpty()) Text(stringResource(R.string.level_last), style = MaterialTheme.typography.bodyLarge)
            if (!page.isSet) Text(page.setText, style = MaterialTheme.typography.bodyLarge)
            if (held) Text(stringResource(R.string.level_held), style = MaterialTheme.typography.bodyLarge)
        }
    }
}

private fun LazyListScope.leaning(page: LevelPage, onEvent: (LevelEvent) -> Unit) {
    items(page.lean, key = { "lean-" + it.id }) { Line(it) }
    items(page.missing) { Missing(it) }
    items(page.cautions) { Caution(it) }
    item(key = "spot") { Spot(page, onEvent) }
    item { SectionHeading(stringResource(R.string.level_how)) }
    item { Lines(page.how) }
}

/** How the phone lies where the vehicle stands level. */
@Composable
private fun Spot(page: LevelPage, onEvent: (LevelEvent) -> Unit) = Panel(Modifier.testTag("spot")) {
    Text(stringResource(R.string.level_spot), Modifier.semantics { heading() }, style = MaterialTheme.typography.titleMedium)
    Text(page.setText, style = MaterialTheme.typography.bodyLarge)
    if (page.rest != null) QuietButton(stringResource(R.string.level_set), { onEvent(LevelEvent.Set) }, Modifier.fillMaxWidth().testTag("set"), R.drawable.ic_do)
    if (page.isSet) QuietButton(stringResource(R.string.level_forget), { onEvent(LevelEvent.Forget) }, Modifier.fillMaxWidth().testTag("forget"))
}

@Composable
private fun Bottom(page: LevelPage, held: Boolean, use: (List<Pick>) -> Unit, onEvent: (LevelEvent) -> Unit) {
    val hold: @Composable () -> Unit = {
        val word = stringResource(if (held) R.string.level_go_on else R.string.level_hold)
        QuietButton(word, { onEvent(LevelEvent.Hold) }, Modifier.fillMaxWidth().heightIn(min = 64.dp).testTag("hold"), if (held) R.drawable.ic_resume else R.drawable.ic_pause)
    }
    UnderThumb(hold) {
        MainButton(stringResource(R.string.level_use), { use(page.picks) }, Modifier.testTag("use"), R.drawable.ic_forward, enabled = page.picks.isNotEmpty())
    }
}

@Composable
private fun Missing(line: String) {
    Marked(R.drawable.ic_question, tint = roles.unknown.mark, size = 22.dp) { Text(line, style = MaterialTheme.typography.bodyLarge) }
}
