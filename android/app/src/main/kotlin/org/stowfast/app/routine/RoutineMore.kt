package org.stowfast.app.routine

import androidx.annotation.DrawableRes
import androidx.annotation.StringRes
import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.Column
import androidx.compose.foundation.layout.padding
import androidx.compose.foundation.rememberScrollState
import androidx.compose.foundation.verticalScroll
import androidx.compose.material3.ExperimentalMaterial3Api
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.ModalBottomSheet
import androidx.compose.material3.Text
import androidx.compose.material3.rememberModalBottomSheetState
import androidx.compose.runtime.Composable
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.heading
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.unit.dp
import org.stowfast.app.R
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Panel
import org.stowfast.engine.StepKind
import org.stowfast.engine.StepRow

/** What else can be done than to confirm. A list has its own way to say that a line of it was otherwise. */
@OptIn(ExperimentalMaterial3Api::class)
@Composable
fun MoreSheet(step: StepRow?, ask: (Ask) -> Unit, onShare: () -> Unit, onCard: (String) -> Unit, onEvent: (RoutineEvent) -> Unit) {
    val close = { ask(Ask.NOTHING) }
    ModalBottomSheet(
        close,
        sheetState = rememberModalBottomSheetState(skipPartiallyExpanded = true),
        containerColor = MaterialTheme.colorScheme.background,
    ) {
        Column(
            Modifier.verticalScroll(rememberScrollState()).padding(start = 16.dp, end = 16.dp, bottom = 16.dp),
            verticalArrangement = Arrangement.spacedBy(8.dp),
        ) {
            Text(
                step?.text ?: stringResource(R.string.routine_list),
                Modifier.padding(horizontal = 4.dp).semantics { heading() },
                style = MaterialTheme.typography.titleLarge,
            )
            if (step != null && step.kind != StepKind.WAIT) {
                Choice("cannot", R.drawable.ic_none, R.string.routine_cannot, R.string.routine_cannot_about) { ask(Ask.CANNOT) }
                Choice("leave", R.drawable.ic_skip, R.string.routine_leave, R.string.routine_leave_short) { ask(Ask.LEAVE) }
            }
            step?.card?.let { card -> Choice("card", R.drawable.ic_card, R.string.routine_card, null) { onCard(card) } }
            Choice("share", R.drawable.ic_two, R.string.shared_heading, R.string.shared_about, onShare)
            Choice("note", R.drawable.ic_note, R.string.note_heading, null) { ask(Ask.NOTE) }
            Choice("pause", R.drawable.ic_pause, R.string.routine_pause, null) {
                close()
                onEvent(RoutineEvent.Pause)
            }
            Choice("end", R.drawable.ic_stop, R.string.routine_end, null) { ask(Ask.END) }
        }
    }
}

/** One thing that can be done instead. */
@Composable
fun Choice(name: String, @DrawableRes icon: Int, @StringRes title: Int, @StringRes about: Int?, onClick: () -> Unit) {
    Panel(Modifier.testTag("more-$name"), onClick = onClick) {
        Marked(icon, size = 26.dp) {
            Text(stringResource(title), style = MaterialTheme.typography.titleMedium)
            if (about != null) {
                Text(
                    stringResource(about),
                    style = MaterialTheme.typography.bodyMedium,
                    color = MaterialTheme.colorScheme.onSurfaceVariant,
                )
            }
        }
    }
}
