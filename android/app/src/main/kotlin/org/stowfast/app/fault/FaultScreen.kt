package org.stowfast.app.fault

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
import androidx.compose.ui.semantics.LiveRegionMode
import androidx.compose.ui.semantics.heading
import androidx.compose.ui.semantics.liveRegion
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.unit.dp
import androidx.lifecycle.viewmodel.compose.viewModel
import org.stowfast.app.R
import org.stowfast.app.share.fault
import org.stowfast.app.share.telling
import org.stowfast.app.ui.Beside
import org.stowfast.app.ui.Caution
import org.stowfast.app.ui.Lines
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.QuietButton
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.WhenShown
import org.stowfast.app.ui.Working
import org.stowfast.app.ui.roles
import org.stowfast.app.ui.trouble
import org.stowfast.engine.CheckRow
import org.stowfast.engine.ContraryRow
import org.stowfast.engine.EmergencyRow
import org.stowfast.engine.FaultPage
import org.stowfast.engine.VehicleEngine

/** Where a search leads on to. */
data class FaultWays(
    val preview: (String) -> Unit,
    val may: (String) -> Unit,
    val card: (String) -> Unit,
    val alert: (String) -> Unit,
    val home: () -> Unit,
)

@Composable
fun FaultRoute(engine: VehicleEngine, ways: Ways, faultId: String, on: FaultWays) {
    val model = viewModel(key = "fault-$faultId") { FaultViewModel(engine, faultId) }
    val state by model.state.collectAsState()
    WhenShown(model) { model.onEvent(FaultEvent.Shown) }
    FaultScreen(state, ways, on, model::onEvent)
}

/** What to look at next, until the cause is found or somebody else is to be asked. */
@Composable
fun FaultScreen(state: FaultState, ways: Ways, on: FaultWays, onEvent: (FaultEvent) -> Unit) {
    val page = state.page
    val list = rememberLazyListState()
    val beside = rememberLazyListState()
    // Whatever was said, what comes of it stands at the top.
    LaunchedEffect(state.answers) { if (state.answers > 0) list.scrollToItem(0) }
    val more: LazyListScope.() -> Unit = { if (page != null) around(page, on, onEvent) }
    Page(
        page?.fault?.title ?: stringResource(R.string.faults_heading),
        ways,
        trouble(state.problem) { onEvent(FaultEvent.Dismiss) },
        list,
        bottom = page?.asks()?.let { { Answers(it, onEvent) } },
        told = telling(page != null) { fault(state) },
        beside = page?.takeIf { it.emergency.isEmpty() }?.let { Beside(beside, more) },
    ) {
        when {
            page == null -> if (state.problem == null) item { Working() }
            page.emergency.isNotEmpty() -> item { Emergency(page, ways, on.home) }
            else -> answer(page, on)
        }
    }
}

private fun LazyListScope.answer(page: FaultPage, on: FaultWays) {
    if (page.cautions.isNotEmpty()) item(key = "life") { Life(page.first()) }
    items(page.contrary) { Contrary(it) }
    page.question?.let { item(key = "check-" + it.id) { Check(page, it) } }
    page.found?.let { cause(page, it, on) }
    if (page.question == null && page.found == null) item { Headline(page) }
    items(page.later()) { Caution(it) }
}

/** What to mind before all else: everything, until it was read and something was said; then what comes first in it. */
fun FaultPage.first(): List<String> = if (tried.isEmpty()) cautions else cautions.take(1)

/** What to mind besides. */
fun FaultPage.later(): List<String> = cautions - first().toSet()

/** People before things: what to mind in this search; what to do in danger is a tap away, at the top. */
@Composable
private fun Life(cautions: List<String>) {
    Panel(Modifier.testTag("life"), tone = roles.unknown) {
        Marked(R.drawable.ic_danger, tint = roles.unknown.mark) {
            Text(stringResource(R.string.fault_life), style = MaterialTheme.typography.titleMedium)
        }
        Lines(cautions)
    }
}

/** What to look at now, large: the question, where, how, and what it takes. */
@Composable
private fun Check(page: FaultPage, row: CheckRow) {
    Panel(Modifier.testTag("check")) {
        Marked(R.drawable.ic_look, size = 28.dp) {
            Text(page.headline, style = MaterialTheme.typography.labelMedium, color = MaterialTheme.colorScheme.primary)
            Text(row.zoneTitle.ifEmpty { stringResource(R.string.fault_anywhere) }, style = MaterialTheme.typography.titleMedium)
        }
        Text(row.text, Modifier.semantics { heading(); liveRegion = LiveRegionMode.Polite }, style = MaterialTheme.typography.headlineMedium)
        if (row.how.isNotEmpty()) Lines(row.how)
        row.toolText?.let { tool ->
            Marked(R.drawable.ic_fault, tint = MaterialTheme.colorScheme.onSurfaceVariant, size = 20.dp) {
                Text(stringResource(R.string.fault_tool, tool), style = MaterialTheme.typography.bodyLarge)
            }
        }
        Text(
            LocalContext.current.lasts(row),
            style = MaterialTheme.typography.bodyMedium,
            color = MaterialTheme.colorScheme.onSurfaceVariant,
        )
        for (caution in row.cautions) Caution(caution)
    }
}

/** Where nothing is asked and nothing is to be mended. */
@Composable
private fun Headline(page: FaultPage) {
    Panel(Modifier.testTag("headline"), tone = roles.clear) {
        Marked(R.drawable.mark_clear, tint = roles.clear.mark, size = 40.dp) {
            Text(page.headline, Modifier.semantics { heading() }, style = MaterialTheme.typography.headlineMedium)
        }
    }
}

/** What does not fit together, and what to look at again. */
@Composable
private fun Contrary(row: ContraryRow) {
    Panel(Modifier.testTag("contrary"), tone = roles.unknown) {
        Marked(R.drawable.mark_unknown, tint = roles.unknown.mark) {
            Text(row.text, Modifier.semantics { heading() }, style = MaterialTheme.typography.titleMedium)
        }
        Lines(row.lookAgain)
    }
}

/** An alarm sounds: nothing else stands here, and the first page ends it. */
@Composable
private fun Emergency(page: FaultPage, ways: Ways, onHome: () -> Unit) {
    Panel(Modifier.testTag("emergency"), tone = roles.blocked) {
        for (row in page.emergency) Peril(row)
        Text(page.headline, style = MaterialTheme.typography.bodyLarge)
        ways.emergency?.let { QuietButton(stringResource(R.string.fault_emergency), it, Modifier.testTag("to-life"), R.drawable.ic_emergency) }
        QuietButton(stringResource(R.string.now_say), onHome, Modifier.testTag("to-now"))
    }
}

@Composable
private fun Peril(row: EmergencyRow) {
    Marked(R.drawable.ic_danger, tint = roles.blocked.mark, size = 32.dp) {
        Text(row.title, Modifier.semantics { heading() }, style = MaterialTheme.typography.titleLarge)
    }
    Text(row.text, style = MaterialTheme.typography.titleMedium)
}
