package org.stowfast.app.ui

import androidx.annotation.StringRes
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.LiveRegionMode
import androidx.compose.ui.semantics.liveRegion
import androidx.compose.ui.semantics.semantics
import org.stowfast.app.R
import org.stowfast.engine.Problem

/** A failed call, and the one thing to do about it. */
data class Trouble(val problem: Problem, @StringRes val action: Int, val onAction: () -> Unit)

/** What most pages do about a failed call: say it, and go on when it was read. */
fun trouble(problem: Problem?, onUnderstood: () -> Unit): Trouble? =
    problem?.let { Trouble(it, R.string.understood, onUnderstood) }

@Composable
fun TroublePanel(trouble: Trouble) {
    Panel(Modifier.testTag("problem").semantics { liveRegion = LiveRegionMode.Assertive }, tone = roles.blocked) {
        Marked(R.drawable.mark_blocked, tint = roles.blocked.mark) {
            Text(stringResource(R.string.problem_heading), style = MaterialTheme.typography.titleMedium)
        }
        Text(words(trouble.problem), style = MaterialTheme.typography.bodyLarge)
        QuietButton(stringResource(trouble.action), trouble.onAction)
    }
}

@Composable
private fun words(problem: Problem): String = when (problem) {
    is Problem.InvalidInput -> stringResource(R.string.problem_invalid, problem.field, problem.detail)
    is Problem.NotFound -> stringResource(R.string.problem_not_found)
    is Problem.Conflict -> stringResource(R.string.problem_conflict, problem.detail)
    is Problem.BrokenPack ->
        if (problem.line > 0) {
            stringResource(R.string.problem_pack_line, problem.file, problem.line, problem.expected)
        } else {
            stringResource(R.string.problem_pack, problem.file, problem.expected)
        }
    is Problem.StorageFull -> stringResource(R.string.problem_full)
    is Problem.StorageDamaged -> stringResource(R.string.problem_damaged, problem.keptPath)
    is Problem.NewerDatabase -> stringResource(R.string.problem_newer, problem.found, problem.supported)
    is Problem.HalfLetter -> stringResource(R.string.problem_half_letter)
    is Problem.Internal -> stringResource(R.string.problem_internal)
}
