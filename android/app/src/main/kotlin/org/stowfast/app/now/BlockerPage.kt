package org.stowfast.app.now

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
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.SectionHeading
import org.stowfast.app.ui.Ways
import org.stowfast.engine.RoutinePage
import org.stowfast.engine.RunRow
import org.stowfast.engine.StepRow

/** One thing in the way: why it matters, the step that deals with it, and the way to that step. */
@Composable
fun BlockerPage(blocker: Blocker, run: RunRow?, ways: Ways, onEvent: (NowEvent) -> Unit) {
    val home = { onEvent(NowEvent.Home) }
    val (item, way, step) = blocker
    Page(
        stringResource(R.string.now_blocker),
        ways.copy(back = home),
        bottom = way?.let { { BeginButton(it, run, run?.targetId == it.run.targetId, stringResource(R.string.now_go_to_step)) { onEvent(NowEvent.GoToStep) } } },
        told = { blocker(blocker) },
        beside = Beside(rememberLazyListState()) {
            items((listOfNotNull(item.caution) + step?.cautions.orEmpty()).distinct()) { Caution(it) }
            when {
                step != null -> step(step, way, blocker)
                way != null -> item { Text(stringResource(R.string.now_no_step), style = MaterialTheme.typography.bodyLarge) }
            }
        },
    ) {
        item { Panel { Standing(item) } }
        item { SectionHeading(stringResource(R.string.now_why)) }
        item {
            Panel(Modifier.testTag("reason")) {
                Text(item.reason, style = MaterialTheme.typography.bodyLarge)
                Text(
                    stringResource(R.string.now_source, item.source),
                    style = MaterialTheme.typography.bodyMedium,
                    color = MaterialTheme.colorScheme.onSurfaceVariant,
                )
            }
        }
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
