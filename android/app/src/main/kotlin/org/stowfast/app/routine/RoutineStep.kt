package org.stowfast.app.routine

import androidx.annotation.DrawableRes
import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.ExperimentalLayoutApi
import androidx.compose.foundation.layout.FlowRow
import androidx.compose.foundation.lazy.LazyListScope
import androidx.compose.foundation.lazy.itemsIndexed
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
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
import androidx.compose.ui.semantics.stateDescription
import androidx.compose.ui.unit.dp
import org.stowfast.app.R
import org.stowfast.app.ui.Caution
import org.stowfast.app.ui.Lines
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Named
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.QuietButton
import org.stowfast.app.ui.SectionHeading
import org.stowfast.app.ui.roles
import org.stowfast.engine.StepKind
import org.stowfast.engine.StepRow

/** The step to do now, large; its cautions beside it; why on a tap. What is to be seen stands on the button below. */
@OptIn(ExperimentalLayoutApi::class)
@Composable
fun CurrentStep(step: StepRow, ask: (Ask) -> Unit) {
    var why by rememberSaveable(step.id) { mutableStateOf(false) }
    Panel(Modifier.testTag("current-step")) {
        Marked(step.kind.icon(), size = 28.dp) {
            Text(
                stringResource(
                    when (step.kind) {
                        StepKind.MOVE -> R.string.routine_do
                        StepKind.LOOK -> R.string.routine_look
                        StepKind.WAIT -> R.string.routine_wait
                    },
                ),
                style = MaterialTheme.typography.labelMedium,
                color = MaterialTheme.colorScheme.primary,
            )
            Text(step.zoneTitle, style = MaterialTheme.typography.titleMedium)
        }
        Text(
            step.text,
            Modifier.semantics { heading(); liveRegion = LiveRegionMode.Polite },
            style = MaterialTheme.typography.headlineMedium,
        )
        // The text of a wait says how long itself.
        if (step.kind != StepKind.WAIT) {
            Text(
                lasts(step),
                style = MaterialTheme.typography.bodyMedium,
                color = MaterialTheme.colorScheme.onSurfaceVariant,
            )
        }
        for (caution in step.cautions) Caution(caution)
        if (step.irreversible) Caution(stringResource(R.string.routine_irreversible))
        if (why) {
            Panel(Modifier.testTag("why"), tone = roles.quiet) { Lines(step.why) }
        }
        FlowRow(horizontalArrangement = Arrangement.spacedBy(8.dp), verticalArrangement = Arrangement.spacedBy(8.dp)) {
            QuietButton(stringResource(R.string.routine_why), { why = !why }, icon = R.drawable.ic_question)
            QuietButton(stringResource(R.string.routine_more), { ask(Ask.MORE) }, icon = R.drawable.ic_more)
            if (step.choices.isNotEmpty()) {
                QuietButton(stringResource(R.string.routine_other), { ask(Ask.SEEN) }, icon = R.drawable.ic_look)
            }
        }
    }
}

@DrawableRes
private fun StepKind.icon(): Int = when (this) {
    StepKind.MOVE -> R.drawable.ic_do
    StepKind.LOOK -> R.drawable.ic_look
    StepKind.WAIT -> R.drawable.ic_clock
}

@Composable
private fun lasts(step: StepRow): String {
    val own = duration(step.handsOnS)
    return if (step.walkS > 0) {
        stringResource(R.string.routine_takes_walk, own, duration(step.walkS))
    } else {
        stringResource(R.string.routine_takes, own)
    }
}

/** Seconds in the words of the frame. */
@Composable
fun duration(seconds: Int): String =
    if (seconds < MINUTE_S) {
        stringResource(R.string.routine_seconds, seconds)
    } else {
        stringResource(R.string.routine_minutes, seconds / MINUTE_S)
    }

private const val MINUTE_S = 60

/** What comes after, in order, under the places that it leads through. [sought] is open from the start. */
fun LazyListScope.rest(steps: List<StepRow>, sought: String?) {
    if (steps.isEmpty()) return
    item { SectionHeading(stringResource(R.string.routine_then)) }
    itemsIndexed(steps) { index, step ->
        val arrives = index == 0 || steps[index - 1].zoneId != step.zoneId
        LaterStep(step, arrives, sought == step.id)
    }
}

/** A tap opens why it comes, and shuts it again. */
@Composable
private fun LaterStep(step: StepRow, arrives: Boolean, sought: Boolean) {
    var open by rememberSaveable(step.id) { mutableStateOf(sought) }
    val muted = MaterialTheme.colorScheme.onSurfaceVariant
    val said = stringResource(if (open) R.string.routine_opened else R.string.routine_shut)
    Panel(
        Modifier.testTag("later-" + step.id).semantics { stateDescription = said },
        tone = if (sought) roles.quiet else null,
        onClick = { open = !open },
        end = if (open) R.drawable.ic_up else R.drawable.ic_down,
    ) {
        if (arrives || open) {
            Text(step.zoneTitle, style = MaterialTheme.typography.labelMedium, color = MaterialTheme.colorScheme.primary)
        }
        Marked(step.kind.icon(), tint = muted, size = 22.dp) {
            Text(step.text, style = MaterialTheme.typography.bodyLarge)
        }
        if (open) {
            when (step.kind) {
                StepKind.MOVE -> Named(stringResource(R.string.routine_wanted), step.wanted)
                StepKind.LOOK -> Named(stringResource(R.string.routine_wanted_look), step.wanted)
                StepKind.WAIT -> Unit
            }
            Lines(step.why)
            for (caution in step.cautions) Caution(caution)
        }
    }
}
