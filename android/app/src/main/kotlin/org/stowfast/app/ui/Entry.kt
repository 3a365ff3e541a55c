package org.stowfast.app.ui

import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.Column
import androidx.compose.foundation.layout.ColumnScope
import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.unit.dp
import org.stowfast.app.R
import org.stowfast.engine.FigureRow

/** What is asked for, with what was said; a tap opens what to say it by. A null [value] was not said, and [lacking] stands for it. */
@Composable
fun Entry(id: String, title: String, value: String?, lacking: String, more: List<String>, open: Boolean, onTurn: () -> Unit, inside: @Composable ColumnScope.() -> Unit) {
    Column(verticalArrangement = Arrangement.spacedBy(4.dp)) {
        Folding(open, onTurn, Modifier.testTag("entry-$id")) {
            val look = if (value == null) R.drawable.ic_question to roles.unknown else R.drawable.ic_do to roles.quiet
            Marked(look.first, tint = look.second.mark, size = 22.dp) {
                Text(title, style = MaterialTheme.typography.bodyLarge)
                Text(value ?: lacking, style = MaterialTheme.typography.titleMedium)
                for (line in more) Text(line, style = MaterialTheme.typography.bodyMedium, color = MaterialTheme.colorScheme.onSurfaceVariant)
            }
        }
        if (open) Panel(content = inside)
    }
}

/** A number that only people can tell; it is kept. [onTell] is given none where it is no longer known. */
@Composable
fun FigureEntry(row: FigureRow, open: Boolean, onTurn: () -> Unit, onTell: (Double?) -> Unit) {
    val lacking = stringResource(R.string.now_not_known)
    val more = listOfNotNull(row.ageText, row.about.takeIf { open || row.valueText == null })
    Entry(row.id, row.title, row.valueText, lacking, more, open, onTurn) {
        val most = listOfNotNull(written(row.valueMax), row.unitText).joinToString(" ")
        val range = stringResource(R.string.figures_range, written(row.valueMin), most, written(row.valueStep))
        NumberField(row.id, stringResource(R.string.figures_number), range, row.unitText, onTell)
        if (row.valueText != null) QuietButton(stringResource(R.string.figures_forget), { onTell(null) }, Modifier.fillMaxWidth().testTag("forget-" + row.id))
    }
}
