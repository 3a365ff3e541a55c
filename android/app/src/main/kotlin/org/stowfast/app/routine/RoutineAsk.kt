package org.stowfast.app.routine

import androidx.compose.foundation.lazy.LazyListScope
import androidx.compose.foundation.lazy.items
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import org.stowfast.app.R
import org.stowfast.app.share.cannot
import org.stowfast.app.share.leave
import org.stowfast.app.share.seen
import org.stowfast.app.ui.Lines
import org.stowfast.app.ui.MainButton
import org.stowfast.app.ui.NoteQuestion
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.Question
import org.stowfast.app.ui.SectionHeading
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.Writing
import org.stowfast.engine.Odd
import org.stowfast.engine.OddCannot
import org.stowfast.engine.OddSeen
import org.stowfast.engine.StepRow

/** What is asked before the page acts. Each question but [MORE] has the whole page: no small window to aim at. */
enum class Ask {
    NOTHING, MORE, SEEN, CANNOT, LEAVE, NOTE, END;

    /** Whether it has the page, given the step that it is about, if that is still there. */
    fun opens(step: StepRow?): Boolean = when (this) {
        NOTHING, MORE -> false
        NOTE, END -> true
        SEEN, CANNOT, LEAVE -> step != null
    }
}

private val CannotQuestion =
    Question(R.string.routine_cannot_heading, R.string.routine_cannot_note, R.string.routine_cannot_go, mayBeEmpty = true)
private val LineCannotQuestion =
    Question(R.string.routine_cannot_heading, R.string.routine_cannot_note, R.string.routine_line_mark, mayBeEmpty = true)
private val LeaveQuestion =
    Question(R.string.routine_leave_heading, R.string.routine_leave_note, R.string.routine_leave_go, mayBeEmpty = true)

/** Asks about [step], or about the routine where it is null. [odd] is what a line of a list was marked as. */
@Composable
fun Asking(
    ask: Ask,
    step: StepRow?,
    listed: Boolean,
    odd: Odd?,
    ways: Ways,
    next: (Ask) -> Unit,
    onCard: (String) -> Unit,
    onEvent: (RoutineEvent) -> Unit,
) {
    val close = { next(Ask.NOTHING) }
    val answer = { event: RoutineEvent ->
        close()
        onEvent(event)
    }
    when (ask) {
        Ask.NOTHING, Ask.MORE -> Unit
        Ask.NOTE -> Writing(NoteQuestion, ways, { answer(RoutineEvent.Note(it)) }, close)
        Ask.END -> End(ways, answer, close)
        Ask.SEEN -> if (step != null) Seen(step, listed, odd, ways, next, onCard, answer)
        Ask.CANNOT -> if (step != null) {
            val said = { note: String ->
                answer(if (listed) RoutineEvent.Mark(step.id, OddCannot(note)) else RoutineEvent.Cannot(step.id, note))
            }
            Writing(if (listed) LineCannotQuestion else CannotQuestion, ways, said, close, { cannot(step) }) { about(step) }
        }
        Ask.LEAVE -> if (step != null) Leave(step, ways, answer, close)
    }
}

@Composable
private fun Leave(step: StepRow, ways: Ways, answer: (RoutineEvent) -> Unit, onClose: () -> Unit) {
    Writing(LeaveQuestion, ways, { answer(RoutineEvent.Leave(step.id, it)) }, onClose, { leave(step) }) {
        about(step)
        item { Text(stringResource(R.string.routine_leave_about), style = MaterialTheme.typography.bodyLarge) }
        if (step.why.isNotEmpty()) {
            item { SectionHeading(stringResource(R.string.now_why)) }
            item { Panel { Lines(step.why) } }
        }
    }
}

/** What a look showed. A line of a list can be set right here in every way. */
@Composable
private fun Seen(
    step: StepRow,
    listed: Boolean,
    odd: Odd?,
    ways: Ways,
    next: (Ask) -> Unit,
    onCard: (String) -> Unit,
    answer: (RoutineEvent) -> Unit,
) {
    val close = { next(Ask.NOTHING) }
    val title = if (step.choices.isEmpty()) R.string.routine_line_heading else R.string.routine_other_heading
    Page(stringResource(title), ways.copy(back = close), told = { seen(step, listed) }) {
        item { Text(if (listed) step.wanted else step.text, style = MaterialTheme.typography.headlineMedium) }
        if (odd != null) {
            item { Choice("so", R.drawable.ic_do, R.string.routine_line_back, null) { answer(RoutineEvent.Mark(step.id, null)) } }
        }
        items(step.choices, key = { it.id }) { choice ->
            Panel(
                Modifier.testTag("choice-" + choice.id),
                onClick = {
                    answer(if (listed) RoutineEvent.Mark(step.id, OddSeen(choice.id)) else RoutineEvent.See(step.id, choice.id))
                },
            ) { Text(choice.text, style = MaterialTheme.typography.titleMedium) }
        }
        if (listed) {
            item { Choice("cannot", R.drawable.ic_none, R.string.routine_cannot, R.string.routine_cannot_about) { next(Ask.CANNOT) } }
            item { Choice("leave", R.drawable.ic_skip, R.string.routine_leave, R.string.routine_leave_short) { next(Ask.LEAVE) } }
            step.card?.let { card -> item { Choice("card", R.drawable.ic_card, R.string.routine_card, null) { onCard(card) } } }
        }
    }
}

@Composable
private fun End(ways: Ways, answer: (RoutineEvent) -> Unit, onClose: () -> Unit) {
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
