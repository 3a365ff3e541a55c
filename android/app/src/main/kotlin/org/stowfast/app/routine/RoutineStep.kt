package org.stowfast.app.routine

import android.content.Context
import androidx.annotation.DrawableRes
import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.ExperimentalLayoutApi
import androidx.compose.foundation.layout.FlowRow
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.runtime.getValue
import androidx.compose.runtime.mutableStateOf
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
import org.stowfast.app.R
import org.stowfast.app.ui.Caution
import org.stowfast.app.ui.Lines
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.QuietButton
import org.stowfast.app.ui.dayAndTime
import org.stowfast.app.ui.roles
import org.stowfast.engine.StepKind
import org.stowfast.engine.StepRow

/** The step to do now, large; its cautions beside it; why on a tap. What is to be seen stands on the button below. */
@OptIn(ExperimentalLayoutApi::class)
@Composable
fun CurrentStep(step: StepRow, untilUtcMs: Long?, ask: (Ask, String?) -> Unit) {
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
                LocalContext.current.lasts(step),
                style = MaterialTheme.typography.bodyMedium,
                color = MaterialTheme.colorScheme.onSurfaceVariant,
            )
        }
        untilUtcMs?.let { Text(stringResource(R.string.routine_until, LocalContext.current.dayAndTime(it)), style = MaterialTheme.typography.titleLarge) }
        for (caution in step.cautions) Caution(caution)
        if (why) {
            Panel(Modifier.testTag("why"), tone = roles.quiet) { Lines(step.why) }
        }
        FlowRow(horizontalArrangement = Arrangement.spacedBy(8.dp), verticalArrangement = Arrangement.spacedBy(8.dp)) {
            QuietButton(stringResource(R.string.routine_why), { why = !why }, icon = R.drawable.ic_question)
            QuietButton(stringResource(R.string.routine_more), { ask(Ask.MORE, step.id) }, icon = R.drawable.ic_more)
            if (step.choices.isNotEmpty()) {
                QuietButton(stringResource(R.string.routine_other), { ask(Ask.SEEN, step.id) }, icon = R.drawable.ic_look)
            }
        }
    }
}

@DrawableRes
fun StepKind.icon(): Int = when (this) {
    StepKind.MOVE -> R.drawable.ic_step
    StepKind.LOOK -> R.drawable.ic_look
    StepKind.WAIT -> R.drawable.ic_clock
}

/** How long a step takes, and the walk to it. */
fun Context.lasts(step: StepRow): String {
    val own = duration(step.handsOnS)
    return if (step.walkS > 0) getString(R.string.routine_takes_walk, own, duration(step.walkS)) else getString(R.string.routine_takes, own)
}

@Composable
fun duration(seconds: Int): String = LocalContext.current.duration(seconds)

/** Seconds in the words of the frame. */
fun Context.duration(seconds: Int): String =
    when (val minutes = seconds / MINUTE_S) {
        0 -> getString(R.string.routine_seconds, seconds)
        in 1..<HOURS_FROM_MIN -> getString(R.string.routine_minutes, minutes)
        else -> (minutes % HOUR_MIN).let { rest ->
            val hours = minutes / HOUR_MIN
            if (rest == 0) getString(R.string.routine_hours, hours) else getString(R.string.routine_hours_minutes, hours, rest)
        }
    }

private const val MINUTE_S = 60
private const val HOUR_MIN = 60

/** From here on a time is told in hours, as the engine does. */
private const val HOURS_FROM_MIN = 120
