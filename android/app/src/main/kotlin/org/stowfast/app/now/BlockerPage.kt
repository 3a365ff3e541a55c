package org.stowfast.app.now

import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.foundation.lazy.LazyListScope
import androidx.compose.foundation.lazy.items
import androidx.compose.foundation.lazy.rememberLazyListState
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import org.stowfast.app.R
import org.stowfast.app.routine.BeginButton
import org.stowfast.app.share.blocker
import org.stowfast.app.ui.Beside
import org.stowfast.app.ui.Caution
import org.stowfast.app.ui.Lines
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.QuietButton
import org.stowfast.app.ui.SectionHeading
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.roles
import org.stowfast.engine.ItemRow
import org.stowfast.engine.RoutinePage
import org.stowfast.engine.RunRow
import org.stowfast.engine.StepRow
import org.stowfast.engine.StuckRow

/** One thing in the way: the step that deals with it and the way to that step, then why it matters. */
@Composable
fun BlockerPage(blocker: Blocker, run: RunRow?, ways: Ways, onEvent: (NowEvent) -> Unit) {
    val home = { onEvent(NowEvent.Home) }
    val (item, _, way, step) = blocker
    Page(
        stringResource(R.string.now_blocker),
        ways.copy(back = home),
        bottom = way?.let { { BeginButton(it, run, run?.targetId == it.run.targetId, stringResource(R.string.now_go_to_step)) { onEvent(NowEvent.GoToStep) } } },
        told = { blocker(blocker) },
        beside = Beside(rememberLazyListState()) {
            item { SectionHeading(stringResource(R.string.now_why)) }
            item { Reason(item) }
        },
    ) {
        item { Panel { Standing(item) } }
        item.stuck?.let { row -> item { Stuck(row) { onEvent(NowEvent.Freed(row.entry)) } } }
        items((listOfNotNull(item.caution) + step?.cautions.orEmpty()).distinct()) { Caution(it) }
        when {
            step != null -> step(step, way, blocker)
            way != null -> item { Text(stringResource(R.string.now_no_step), style = MaterialTheme.typography.bodyLarge) }
        }
    }
}

@Composable
private fun Reason(item: ItemRow) = Panel(Modifier.testTag("reason")) {
    Text(item.reason, style = MaterialTheme.typography.bodyLarge)
    Text(
        stringResource(R.string.now_source, item.source),
        style = MaterialTheme.typography.bodyMedium,
        color = MaterialTheme.colorScheme.onSurfaceVariant,
    )
}

/** What cannot be moved: what to do instead, and the word that it moves again. */
@Composable
fun Stuck(row: StuckRow, onFreed: () -> Unit) {
    Panel(Modifier.testTag("stuck-" + row.entry), tone = roles.blocked) {
        Marked(R.drawable.mark_blocked, tint = roles.blocked.mark) {
            Text(stringResource(R.string.stuck_title, row.title), style = MaterialTheme.typography.titleMedium)
        }
        Text(row.text, style = MaterialTheme.typography.bodyLarge)
        QuietButton(stringResource(R.string.stuck_freed), onFreed, Modifier.fillMaxWidth().testTag("freed-" + row.entry), R.drawable.ic_undo)
    }
}

/** Why the step is asked, but for what is said of the thing itself. */
fun Blocker.others(): List<String> = step?.why.orEmpty().filterNot { it in item.reason }

private fun LazyListScope.step(step: StepRow, way: RoutinePage?, blocker: Blocker) {
    item { SectionHeading(stringResource(R.string.now_step)) }
    item {
        Panel(Modifier.testTag("step")) {
            Text(step.zoneTitle, style = MaterialTheme.typography.labelMedium, color = MaterialTheme.colorScheme.primary)
            Text(step.text, style = MaterialTheme.typography.titleLarge)
            val before = way?.steps.orEmpty().takeWhile { it.id != step.id }
            before.lastOrNull()?.let {
                Text(
                    stringResource(R.string.now_step_after, it.text),
                    style = MaterialTheme.typography.bodyMedium,
                    color = MaterialTheme.colorScheme.onSurfaceVariant,
                )
            }
            val others = blocker.others()
            if (others.isNotEmpty()) Lines(others)
        }
    }
    if (blocker.against.isNotEmpty()) {
        item { SectionHeading(stringResource(R.string.now_step_not_yet)) }
        item { Panel(Modifier.testTag("against")) { Lines(blocker.against) } }
    }
}
