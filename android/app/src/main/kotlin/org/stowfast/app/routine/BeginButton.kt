package org.stowfast.app.routine

import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.unit.dp
import org.stowfast.app.R
import org.stowfast.app.ui.MainButton
import org.stowfast.app.ui.UnderThumb
import org.stowfast.engine.RoutinePage
import org.stowfast.engine.RunRow

/** Begins the routine of [way], and says which other it ends; where it [runs] already, [again] stands on it. */
@Composable
fun BeginButton(way: RoutinePage, run: RunRow?, runs: Boolean, again: String, onClick: () -> Unit) {
    val target = way.run.targetTitle
    val text = when {
        (run == null || !runs) && way.impossible.isNotEmpty() -> stringResource(R.string.begin_rest, target)
        run == null || !runs -> stringResource(R.string.now_begin, target)
        run.paused -> stringResource(R.string.now_continue, target)
        else -> again
    }
    val ends: (@Composable () -> Unit)? = run?.takeIf { !runs }?.let {
        { Text(stringResource(R.string.now_ends_other, it.targetTitle), style = MaterialTheme.typography.bodyMedium) }
    }
    UnderThumb(ends) { MainButton(text, onClick, icon = R.drawable.ic_route) }
}
