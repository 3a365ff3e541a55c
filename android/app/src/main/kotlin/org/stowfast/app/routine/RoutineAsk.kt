package org.stowfast.app.routine

import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.Column
import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.foundation.layout.heightIn
import androidx.compose.foundation.rememberScrollState
import androidx.compose.foundation.verticalScroll
import androidx.compose.material3.AlertDialog
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.OutlinedTextField
import androidx.compose.material3.Text
import androidx.compose.material3.TextButton
import androidx.compose.runtime.Composable
import androidx.compose.runtime.getValue
import androidx.compose.runtime.mutableStateOf
import androidx.compose.runtime.saveable.rememberSaveable
import androidx.compose.runtime.setValue
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.unit.dp
import org.stowfast.app.R
import org.stowfast.app.ui.QuietButton
import org.stowfast.engine.StepRow

/** What the page asks before it acts. */
enum class Ask { NOTHING, SEEN, CANNOT, END }

@Composable
fun Asking(ask: Ask, step: StepRow, onEvent: (RoutineEvent) -> Unit, onClose: () -> Unit) {
    when (ask) {
        Ask.NOTHING -> Unit
        Ask.SEEN -> Seen(step, onEvent, onClose)
        Ask.CANNOT -> Cannot(step, onEvent, onClose)
        Ask.END -> End(onEvent, onClose)
    }
}

@Composable
private fun Seen(step: StepRow, onEvent: (RoutineEvent) -> Unit, onClose: () -> Unit) {
    Question(R.string.routine_other_heading, confirm = null, onConfirm = {}, onClose = onClose) {
        Text(step.text, style = MaterialTheme.typography.bodyLarge)
        for (choice in step.choices) {
            QuietButton(
                choice.text,
                {
                    onClose()
                    onEvent(RoutineEvent.See(step.id, choice.id))
                },
                Modifier.fillMaxWidth().testTag("choice-" + choice.id),
            )
        }
    }
}

@Composable
private fun Cannot(step: StepRow, onEvent: (RoutineEvent) -> Unit, onClose: () -> Unit) {
    var note by rememberSaveable(step.id) { mutableStateOf("") }
    val go = {
        onClose()
        onEvent(RoutineEvent.Cannot(step.id, note))
    }
    Question(R.string.routine_cannot_heading, R.string.routine_cannot_go, go, onClose) {
        Text(step.text, style = MaterialTheme.typography.bodyLarge)
        OutlinedTextField(
            note,
            { note = it },
            Modifier.fillMaxWidth(),
            label = { Text(stringResource(R.string.routine_cannot_note)) },
        )
    }
}

@Composable
private fun End(onEvent: (RoutineEvent) -> Unit, onClose: () -> Unit) {
    val go = {
        onClose()
        onEvent(RoutineEvent.Close)
    }
    Question(R.string.routine_end, R.string.routine_end, go, onClose) {
        Text(stringResource(R.string.routine_end_question), style = MaterialTheme.typography.bodyLarge)
    }
}

@Composable
private fun Question(
    heading: Int,
    confirm: Int?,
    onConfirm: () -> Unit,
    onClose: () -> Unit,
    content: @Composable () -> Unit,
) {
    AlertDialog(
        onDismissRequest = onClose,
        title = { Text(stringResource(heading), style = MaterialTheme.typography.titleLarge) },
        text = {
            Column(
                Modifier.verticalScroll(rememberScrollState()),
                verticalArrangement = Arrangement.spacedBy(12.dp),
            ) { content() }
        },
        confirmButton = {
            if (confirm != null) {
                TextButton(onConfirm, Modifier.heightIn(min = 48.dp)) {
                    Text(stringResource(confirm), style = MaterialTheme.typography.labelLarge)
                }
            }
        },
        dismissButton = {
            TextButton(onClose, Modifier.heightIn(min = 48.dp)) {
                Text(stringResource(R.string.cancel), style = MaterialTheme.typography.labelLarge)
            }
        },
    )
}
