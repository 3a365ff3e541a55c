package org.stowfast.app.routine

import androidx.activity.compose.BackHandler
import androidx.compose.foundation.lazy.LazyListScope
import androidx.compose.foundation.lazy.items
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import org.stowfast.app.R
import org.stowfast.app.ui.Lines
import org.stowfast.app.ui.MainButton
import org.stowfast.app.ui.NoteQuestion
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.Question
import org.stowfast.app.ui.SectionHeading
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.Writing
import org.stowfast.engine.StepRow

/** What is asked before the page acts. Each question but [MORE] has the whole page: no small window to aim at. */
enum class Ask { NOTHING, MORE, SEEN, CANNOT, LEAVE, NOTE, END }

private val CannotQuestion =
    Question(R.string.routine_cannot_heading, R.string.routine_cannot_note, R.string.routine_cannot_go, mayBeEmpty = true)
private val LeaveQuestion =
    Question(R.string.routine_leave_heading, R.string.routine_leave_note, R.string.routine_leave_go, mayBeEmpty = true)

@Composable
fun Asking(ask: Ask, step: StepRow, ways: Ways, onEvent: (RoutineEvent) -> Unit, onClose: () -> Unit) {
    val answer = { event: RoutineEvent ->
        onClose()
        onEvent(event)
    }
    when (ask) {
        Ask.NOTHING, Ask.MORE -> Unit
        Ask.SEEN -> Seen(step, ways, answer, onClose)
        Ask.CANNOT -> Writing(CannotQuestion, ways, { answer(RoutineEvent.Cannot(step.id, it)) }, onClose) { about(step) }
        Ask.LEAVE -> Writing(LeaveQuestion, ways, { answer(RoutineEvent.Leave(step.id, it)) }, onClose) {
            about(step)
            item { Text(stringResource(R.string.routine_leave_about), style = MaterialTheme.typography.bodyLarge) }
            if (step.why.isNotEmpty()) {
                item { SectionHeading(stringResource(R.string.now_why)) }
                item { Panel { Lines(step.why) } }
            }
        }
        Ask.NOTE -> Writing(NoteQuestion, ways, { answer(RoutineEvent.Note(it)) }, onClose)
        Ask.END -> End(ways, answer, onClose)
    }
}

@Composable
private fun Seen(step: StepRow, ways: Ways, answer: (RoutineEvent) -> Unit, onClose: () -> Unit) {
    BackHandler(onBack = onClose)
    Page(stringResource(R.string.routine_other_heading), ways.copy(back = onClose)) {
        about(step)
        items(step.choices, key = { it.id }) { choice ->
            Panel(
                Modifier.testTag("choice-" + choice.id),
                onClick = { answer(RoutineEvent.See(step.id, choice.id)) },
            ) { Text(choice.text, style = MaterialTheme.typography.titleMedium) }
        }
    }
}

@Composable
private fun End(ways: Ways, answer: (RoutineEvent) -> Unit, onClose: () -> Unit) {
    BackHandler(onBack = onClose)
    Page(
        stringResource(R.string.routine_end),
        ways.copy(back = onClose),
        bottom = { MainButton(stringResource(R.string.routine_end), { answer(RoutineEvent.Close) }) },
    ) {
        item { Text(stringResource(R.string.routine_end_question), style = MaterialTheme.typography.titleLarge) }
    }
}

private fun LazyListScope.about(step: StepRow) {
    item { Text(step.text, style = MaterialTheme.typography.headlineMedium) }
}
