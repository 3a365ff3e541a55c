package org.stowfast.app.routine

import androidx.activity.compose.BackHandler
import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.foundation.lazy.LazyListScope
import androidx.compose.foundation.lazy.items
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.OutlinedTextField
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.runtime.getValue
import androidx.compose.runtime.mutableStateOf
import androidx.compose.runtime.saveable.rememberSaveable
import androidx.compose.runtime.setValue
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import org.stowfast.app.R
import org.stowfast.app.ui.MainButton
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.Ways
import org.stowfast.engine.StepRow

/** What is asked before the page acts. Each question has the whole page: no small window to aim at. */
enum class Ask { NOTHING, SEEN, CANNOT, END }

@Composable
fun Asking(ask: Ask, step: StepRow, ways: Ways, onEvent: (RoutineEvent) -> Unit, onClose: () -> Unit) {
    BackHandler { onClose() }
    val back = ways.copy(back = onClose)
    val answer = { event: RoutineEvent ->
        onClose()
        onEvent(event)
    }
    when (ask) {
        Ask.NOTHING -> Unit
        Ask.SEEN -> Seen(step, back, answer)
        Ask.CANNOT -> Cannot(step, back, answer)
        Ask.END -> End(back, answer)
    }
}

@Composable
private fun Seen(step: StepRow, ways: Ways, answer: (RoutineEvent) -> Unit) {
    Page(stringResource(R.string.routine_other_heading), ways) {
        about(step.text)
        items(step.choices, key = { it.id }) { choice ->
            Panel(
                Modifier.testTag("choice-" + choice.id),
                onClick = { answer(RoutineEvent.See(step.id, choice.id)) },
            ) { Text(choice.text, style = MaterialTheme.typography.titleMedium) }
        }
    }
}

@Composable
private fun Cannot(step: StepRow, ways: Ways, answer: (RoutineEvent) -> Unit) {
    var note by rememberSaveable(step.id) { mutableStateOf("") }
    Page(
        stringResource(R.string.routine_cannot_heading),
        ways,
        bottom = {
            MainButton(stringResource(R.string.routine_cannot_go), { answer(RoutineEvent.Cannot(step.id, note)) })
        },
    ) {
        about(step.text)
        item {
            OutlinedTextField(
                note,
                { note = it },
                Modifier.fillMaxWidth(),
                textStyle = MaterialTheme.typography.bodyLarge,
                label = { Text(stringResource(R.string.routine_cannot_note)) },
            )
        }
    }
}

@Composable
private fun End(ways: Ways, answer: (RoutineEvent) -> Unit) {
    Page(
        stringResource(R.string.routine_end),
        ways,
        bottom = { MainButton(stringResource(R.string.routine_end), { answer(RoutineEvent.Close) }) },
    ) {
        item { Text(stringResource(R.string.routine_end_question), style = MaterialTheme.typography.titleLarge) }
    }
}

private fun LazyListScope.about(text: String) {
    item { Text(text, style = MaterialTheme.typography.headlineMedium) }
}
