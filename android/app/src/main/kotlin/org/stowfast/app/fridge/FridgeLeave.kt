package org.stowfast.app.fridge

import androidx.annotation.StringRes
import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.ExperimentalLayoutApi
import androidx.compose.foundation.layout.FlowRow
import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.LocalContext
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.unit.dp
import org.stowfast.app.R
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.QuietButton
import org.stowfast.app.ui.dayAndTime
import org.stowfast.engine.LeaveRow

/** When they leave, and by when the fridge is to be switched on for that. */
@OptIn(ExperimentalLayoutApi::class)
@Composable
fun Leave(row: LeaveRow, onEvent: (FridgeEvent) -> Unit) {
    val context = LocalContext.current
    row.chosenUtcMs?.let { leave ->
        Marked(R.drawable.ic_van) { Text(stringResource(R.string.fridge_leave_at, context.dayAndTime(leave)), style = MaterialTheme.typography.titleMedium) }
    }
    row.startUtcMs?.let { start ->
        Marked(R.drawable.ic_clock, size = 32.dp) { Text(stringResource(R.string.fridge_begin_by, context.dayAndTime(start)), style = MaterialTheme.typography.titleLarge) }
    }
    row.startText?.let { Text(it, style = MaterialTheme.typography.bodyLarge) }
    FlowRow(horizontalArrangement = Arrangement.spacedBy(8.dp), verticalArrangement = Arrangement.spacedBy(8.dp)) {
        row.earlierUtcMs?.let { Hour(R.string.fridge_earlier, "leave-earlier", it, onEvent) }
        row.laterUtcMs?.let { Hour(R.string.fridge_later, "leave-later", it, onEvent) }
    }
    val first = row.chosenUtcMs ?: fullHour(row.choicesUtcMs.first())
    val text = stringResource(if (row.chosenUtcMs == null) R.string.fridge_leave_choose else R.string.fridge_leave_other)
    QuietButton(text, { onEvent(FridgeEvent.Pick(shown(first))) }, Modifier.fillMaxWidth().testTag("leave"), R.drawable.ic_clock)
}

@Composable
private fun Hour(@StringRes text: Int, tag: String, utcMs: Long, onEvent: (FridgeEvent) -> Unit) =
    QuietButton(stringResource(text), { onEvent(FridgeEvent.Leave(utcMs)) }, Modifier.testTag(tag))
