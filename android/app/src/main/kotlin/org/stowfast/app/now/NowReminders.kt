package org.stowfast.app.now

import android.content.Context
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.LocalContext
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.unit.dp
import org.stowfast.app.R
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.dayAndTime
import org.stowfast.app.ui.roles
import org.stowfast.engine.ReminderRow

/** What to fill or empty soon. A tap leads to what is left of it. */
@Composable
fun Reminder(row: ReminderRow, onClick: () -> Unit) {
    Panel(Modifier.testTag("remind-" + row.id), tone = roles.unknown, onClick = onClick, end = R.drawable.ic_forward) {
        Marked(R.drawable.ic_gauge, tint = roles.unknown.mark, size = 28.dp) {
            Text(row.line(LocalContext.current), style = MaterialTheme.typography.titleMedium)
            Text(row.aboutText, style = MaterialTheme.typography.bodyMedium)
        }
    }
}

/** What to do and by when, as the clock of the phone shows it. */
fun ReminderRow.line(context: Context): String =
    byUtcMs?.let { context.getString(R.string.remind_by, doText, context.dayAndTime(it)) } ?: context.getString(R.string.remind_now, doText)
