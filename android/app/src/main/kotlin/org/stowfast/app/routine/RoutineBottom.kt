package org.stowfast.app.routine

import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.Column
import androidx.compose.foundation.layout.Row
import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.foundation.layout.heightIn
import androidx.compose.foundation.layout.padding
import androidx.compose.foundation.layout.size
import androidx.compose.material3.Icon
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.material3.TextButton
import androidx.compose.runtime.Composable
import androidx.compose.ui.Alignment
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.painterResource
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.unit.dp
import org.stowfast.app.R
import org.stowfast.app.ui.ConfirmButton
import org.stowfast.app.ui.MainButton
import org.stowfast.app.ui.QuietButton
import org.stowfast.app.ui.UnderThumb
import org.stowfast.app.ui.grown
import org.stowfast.app.ui.largeLetters
import org.stowfast.engine.DoneRow
import org.stowfast.engine.RoutinePage
import org.stowfast.engine.StepKind
import org.stowfast.engine.VerdictKind

/** What stays under the thumb: what was recorded last, with its undo, and the one button. */
@Composable
fun Bottom(page: RoutinePage, state: RoutineState, onDrive: () -> Unit, onEvent: (RoutineEvent) -> Unit) {
    val last = state.last()
    val drives = page.finished && page.run.road && page.verdict == VerdictKind.CLEAR
    val above: @Composable () -> Unit = {
        Column {
            if (last != null) UndoBar(last, state.gestureOf(last.entry).size > 1, onEvent)
            if (drives) QuietButton(stringResource(R.string.routine_close), { onEvent(RoutineEvent.Close) }, Modifier.fillMaxWidth().heightIn(min = 64.dp), R.drawable.ic_do)
        }
    }
    UnderThumb(above.takeIf { last != null || drives }) {
        if (drives) {
            MainButton(stringResource(R.string.drive_off), onDrive, Modifier.testTag("drive-off"), R.drawable.ic_van)
        } else {
            Action(page, state.odd.keys, onEvent)
        }
    }
}

/** What was recorded last and can be taken back. */
fun RoutineState.last(): DoneRow? =
    (listOfNotNull(noted) + page?.done.orEmpty()).filterNot { it.voided }.maxByOrNull { it.entry }

/** What the gesture that wrote [entry] wrote and still counts, newest first: the entry alone where it was no list. */
fun RoutineState.gestureOf(entry: Long): List<Long> {
    val said = page?.done.orEmpty() + page?.stuck.orEmpty()
    val list = said.filter { it.entry in confirmed && !it.voided }.map { it.entry }.sortedDescending()
    return if (entry in list) list else listOf(entry)
}

@Composable
private fun Action(page: RoutinePage, odd: Set<String>, onEvent: (RoutineEvent) -> Unit) {
    val gesture = page.current()
    when {
        page.finished || gesture == null -> MainButton(
            stringResource(R.string.routine_close),
            { onEvent(RoutineEvent.Close) },
            icon = R.drawable.ic_do,
        )
        page.run.paused -> MainButton(
            stringResource(R.string.routine_resume),
            { onEvent(RoutineEvent.Resume) },
            icon = R.drawable.ic_resume,
        )
        // Nothing to confirm: time does it, and the page is worked out anew.
        gesture.waits -> QuietButton(
            stringResource(R.string.routine_look_again),
            { onEvent(RoutineEvent.Shown) },
            Modifier.fillMaxWidth().heightIn(min = 64.dp).testTag("look-again"),
            icon = R.drawable.ic_clock,
        )
        else -> Confirm(gesture, odd, onEvent)
    }
}

/** It names what it confirms: another step may be on show above it. */
@Composable
private fun Confirm(gesture: Gesture, odd: Set<String>, onEvent: (RoutineEvent) -> Unit) {
    val marked = gesture.row.steps.filter { it in odd }
    val step = gesture.alone
    val looking = step == null || step.kind == StepKind.LOOK
    val hold = gesture.row.hold
    ConfirmButton(
        // A mark made meanwhile asks for the gesture anew.
        gesture.id + marked,
        text = when {
            step != null -> step.wanted
            marked.isEmpty() -> stringResource(R.string.routine_all)
            marked.size == gesture.steps.size -> stringResource(R.string.routine_none_so)
            else -> stringResource(R.string.routine_rest)
        },
        hint = stringResource(
            when {
                step == null && marked.isNotEmpty() -> if (hold) R.string.routine_hold_record else R.string.routine_record
                step == null -> if (hold) R.string.routine_hold_all else R.string.routine_tap_all
                looking -> if (hold) R.string.routine_hold_see else R.string.routine_see
                else -> if (hold) R.string.routine_hold_done else R.string.routine_done
            },
        ),
        deliberate = hold,
        icon = if (looking) R.drawable.ic_look else R.drawable.ic_do,
        onConfirm = { onEvent(RoutineEvent.Confirm(gesture.row.steps)) },
    )
}

/** What an entry says of other things stands behind it, in the record. */
private const val AND_SO = " · "

@Composable
private fun UndoBar(last: DoneRow, listed: Boolean, onEvent: (RoutineEvent) -> Unit) {
    Row(
        Modifier.fillMaxWidth().heightIn(min = 48.dp).testTag("undo-bar"),
        verticalAlignment = Alignment.CenterVertically,
        horizontalArrangement = Arrangement.spacedBy(8.dp),
    ) {
        Text(
            if (listed) stringResource(R.string.routine_recorded_list) else stringResource(R.string.routine_recorded, last.text.substringBefore(AND_SO)),
            Modifier.weight(1f),
            // With large letters the list above needs the room more.
            style = if (largeLetters()) MaterialTheme.typography.bodySmall else MaterialTheme.typography.bodyMedium,
        )
        TextButton({ onEvent(RoutineEvent.Undo(last.entry)) }, Modifier.heightIn(min = 48.dp)) {
            Icon(painterResource(R.drawable.ic_undo), null, Modifier.padding(end = 6.dp).size(grown(22.dp)))
            Text(stringResource(R.string.routine_undo), style = MaterialTheme.typography.labelLarge)
        }
    }
}
