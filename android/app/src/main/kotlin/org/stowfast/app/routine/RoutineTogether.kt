package org.stowfast.app.routine

import android.content.Context
import androidx.compose.foundation.clickable
import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.Column
import androidx.compose.foundation.layout.ExperimentalLayoutApi
import androidx.compose.foundation.layout.FlowRow
import androidx.compose.foundation.layout.Row
import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.foundation.layout.heightIn
import androidx.compose.foundation.layout.padding
import androidx.compose.foundation.layout.size
import androidx.compose.material3.HorizontalDivider
import androidx.compose.material3.Icon
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.runtime.getValue
import androidx.compose.runtime.mutableStateOf
import androidx.compose.runtime.saveable.rememberSaveable
import androidx.compose.runtime.setValue
import androidx.compose.ui.Alignment
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.LocalContext
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.painterResource
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.LiveRegionMode
import androidx.compose.ui.semantics.Role
import androidx.compose.ui.semantics.heading
import androidx.compose.ui.semantics.liveRegion
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.semantics.stateDescription
import androidx.compose.ui.unit.dp
import org.stowfast.app.R
import org.stowfast.app.ui.Lines
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.QuietButton
import org.stowfast.app.ui.grown
import org.stowfast.app.ui.roles
import org.stowfast.engine.Odd
import org.stowfast.engine.OddCannot
import org.stowfast.engine.OddSeen
import org.stowfast.engine.StepKind
import org.stowfast.engine.StepRow

/** A list that one gesture confirms. A tap on a line says that it was otherwise. */
@OptIn(ExperimentalLayoutApi::class)
@Composable
fun CurrentList(gesture: Gesture, odd: Map<String, Odd>, ask: (Ask, String?) -> Unit) {
    var why by rememberSaveable(gesture.id) { mutableStateOf(false) }
    Panel(Modifier.testTag("current-list")) {
        Text(
            stringResource(R.string.routine_list),
            Modifier.semantics { heading(); liveRegion = LiveRegionMode.Polite },
            style = MaterialTheme.typography.titleLarge,
        )
        Text(
            stringResource(R.string.routine_list_about),
            style = MaterialTheme.typography.bodyMedium,
            color = MaterialTheme.colorScheme.onSurfaceVariant,
        )
        Column {
            gesture.steps.zip(gesture.row.lines).forEachIndexed { index, (step, line) ->
                if (index == 0 || gesture.steps[index - 1].zoneId != step.zoneId) {
                    Text(
                        step.zoneTitle,
                        Modifier.padding(top = 12.dp).semantics { heading() },
                        style = MaterialTheme.typography.labelMedium,
                        color = MaterialTheme.colorScheme.primary,
                    )
                } else {
                    HorizontalDivider(color = MaterialTheme.colorScheme.outlineVariant)
                }
                ListLine(step, line, odd[step.id]) { ask(Ask.SEEN, step.id) }
                LineNotes(step, why)
            }
        }
        FlowRow(horizontalArrangement = Arrangement.spacedBy(8.dp), verticalArrangement = Arrangement.spacedBy(8.dp)) {
            QuietButton(stringResource(R.string.routine_why), { why = !why }, icon = R.drawable.ic_question)
            QuietButton(stringResource(R.string.routine_more), { ask(Ask.MORE, null) }, icon = R.drawable.ic_more)
        }
    }
}

@Composable
private fun ListLine(step: StepRow, line: String, odd: Odd?, onClick: () -> Unit) {
    val said = odd?.let { LocalContext.current.found(step, it) } ?: stringResource(R.string.routine_line_so)
    val muted = MaterialTheme.colorScheme.onSurfaceVariant
    Row(
        Modifier
            .fillMaxWidth()
            .clickable(role = Role.Button, onClick = onClick)
            .semantics(mergeDescendants = true) { stateDescription = said }
            .heightIn(min = 56.dp)
            .padding(vertical = 8.dp)
            .testTag("line-" + step.id),
        verticalAlignment = Alignment.CenterVertically,
        horizontalArrangement = Arrangement.spacedBy(12.dp),
    ) {
        Icon(painterResource(step.kind.icon()), null, Modifier.size(grown(24.dp)), tint = MaterialTheme.colorScheme.primary)
        Column(Modifier.weight(1f), verticalArrangement = Arrangement.spacedBy(2.dp)) {
            Text(line, style = MaterialTheme.typography.titleMedium)
            // A look says no more than its line.
            if (step.kind == StepKind.MOVE) Text(step.text, style = MaterialTheme.typography.bodyMedium, color = muted)
            if (odd != null) {
                Marked(R.drawable.mark_unknown, tint = roles.unknown.mark, size = 20.dp, gap = 8.dp) {
                    Text(said, color = roles.unknown.mark, style = MaterialTheme.typography.titleMedium)
                }
            }
        }
        Icon(painterResource(R.drawable.ic_forward), null, Modifier.size(20.dp), MaterialTheme.colorScheme.outline)
    }
}

/** What to mind at one line, and on a tap why it is asked. */
@Composable
private fun LineNotes(step: StepRow, why: Boolean) {
    if (step.cautions.isEmpty() && !why) return
    Column(Modifier.padding(start = 36.dp, bottom = 8.dp), verticalArrangement = Arrangement.spacedBy(6.dp)) {
        for (caution in step.cautions) {
            Marked(R.drawable.ic_danger, tint = roles.unknown.mark, size = 20.dp, gap = 8.dp) {
                Text(caution, style = MaterialTheme.typography.bodyLarge)
            }
        }
        if (why) Lines(step.why, Modifier.testTag("why"), MaterialTheme.colorScheme.onSurfaceVariant)
    }
}

/** How a line was otherwise, in words. */
fun Context.found(step: StepRow, odd: Odd): String = when (odd) {
    is OddSeen -> getString(R.string.routine_line_seen, step.choices.find { it.id == odd.v1 }?.text.orEmpty())
    is OddCannot ->
        if (odd.v1.isEmpty()) {
            getString(R.string.routine_cannot)
        } else {
            getString(R.string.routine_line_cannot, odd.v1)
        }
}
