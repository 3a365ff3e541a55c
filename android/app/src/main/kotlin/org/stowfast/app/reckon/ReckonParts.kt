package org.stowfast.app.reckon

import androidx.annotation.StringRes
import androidx.compose.foundation.background
import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.Box
import androidx.compose.foundation.layout.ExperimentalLayoutApi
import androidx.compose.foundation.layout.FlowRow
import androidx.compose.foundation.layout.Row
import androidx.compose.foundation.layout.Spacer
import androidx.compose.foundation.layout.fillMaxHeight
import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.foundation.layout.height
import androidx.compose.foundation.shape.RoundedCornerShape
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.ui.Modifier
import androidx.compose.ui.draw.clip
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.contentDescription
import androidx.compose.ui.semantics.heading
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.unit.dp
import org.stowfast.app.R
import org.stowfast.app.ui.ChoiceButton
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Named
import org.stowfast.app.ui.NumberField
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.QuietButton
import org.stowfast.app.ui.grown
import org.stowfast.app.ui.written
import org.stowfast.engine.Choice
import org.stowfast.engine.FigureRow
import org.stowfast.engine.ReckoningLine

/** One thing that was reckoned: what, how much, and how it stands. */
@Composable
internal fun Line(line: ReckoningLine) {
    val look = line.mark?.look()
    Panel(Modifier.testTag("line-" + line.id)) {
        if (look == null) {
            Named(line.title, line.text)
        } else {
            Marked(look.mark, tint = look.tone.mark, size = 28.dp) {
                Text(line.title, style = MaterialTheme.typography.bodyMedium, color = MaterialTheme.colorScheme.onSurfaceVariant)
                Text(line.text, style = MaterialTheme.typography.titleMedium)
            }
        }
        Bar(line)
        line.detail?.let { Text(it, style = MaterialTheme.typography.bodyMedium, color = MaterialTheme.colorScheme.onSurfaceVariant) }
    }
}

/** Where its band lies; the words beside it say the same. */
@Composable
private fun Bar(line: ReckoningLine) {
    val from = line.barFrom ?: return
    val to = line.barTo ?: return
    Row(Modifier.fillMaxWidth().height(grown(10.dp)).clip(RoundedCornerShape(5.dp)).background(MaterialTheme.colorScheme.surfaceVariant)) {
        Share(from)
        Share(to - from, Modifier.background(MaterialTheme.colorScheme.primary))
        Share(1.0 - to)
    }
}

/** Takes its share of a row; nothing takes none. */
@Composable
private fun androidx.compose.foundation.layout.RowScope.Share(share: Double, modifier: Modifier = Modifier) {
    if (share > 0.0) Box(modifier.weight(share.toFloat()).fillMaxHeight()) { Spacer(Modifier.fillMaxHeight()) }
}

/** What is picked for this question, once. */
@OptIn(ExperimentalLayoutApi::class)
@Composable
internal fun ChoicePanel(choice: Choice, open: Boolean, onEvent: (ReckonEvent) -> Unit) {
    Panel(Modifier.testTag("choice-" + choice.id)) {
        Text(choice.title, Modifier.semantics { heading() }, style = MaterialTheme.typography.titleMedium)
        val number = choice.number
        if (number == null) {
            if (choice.many) Text(stringResource(R.string.reckon_several), style = MaterialTheme.typography.bodyMedium, color = MaterialTheme.colorScheme.onSurfaceVariant)
            FlowRow(horizontalArrangement = Arrangement.spacedBy(8.dp), verticalArrangement = Arrangement.spacedBy(4.dp)) {
                for (option in choice.options) {
                    val button = Modifier.testTag("pick-${choice.id}-${option.id}")
                    ChoiceButton(option.title, option.chosen, { onEvent(ReckonEvent.Choose(choice.id, option.id)) }, button)
                }
            }
        } else {
            Text(number.valueText ?: stringResource(R.string.reckon_not_picked), style = MaterialTheme.typography.headlineSmall)
            if (open) {
                NumberField(choice.id, stringResource(R.string.figures_number), number.rangeText, null) { onEvent(ReckonEvent.Number(choice.id, it)) }
                if (number.value != null) Button(choice.title, R.string.reckon_none, R.string.reckon_none_this, "none-" + choice.id) { onEvent(ReckonEvent.Number(choice.id, null)) }
            } else {
                Button(choice.title, R.string.reckon_type, R.string.reckon_type_this, "type-it-" + choice.id) { onEvent(ReckonEvent.Open(choice.id)) }
            }
        }
    }
}

/** A number that only people can tell; it is kept. */
@Composable
internal fun Ask(row: FigureRow, open: Boolean, onEvent: (ReckonEvent) -> Unit) {
    Panel(Modifier.testTag("ask-" + row.id)) {
        Named(row.title, row.valueText ?: stringResource(R.string.now_not_known))
        Text(row.about, style = MaterialTheme.typography.bodyMedium, color = MaterialTheme.colorScheme.onSurfaceVariant)
        if (open) {
            val range = stringResource(R.string.figures_range, written(row.valueMin), written(row.valueMax), written(row.valueStep))
            NumberField(row.id, stringResource(R.string.figures_number), range, null) { onEvent(ReckonEvent.Tell(row.id, it)) }
            if (row.value != null) Button(row.title, R.string.figures_forget, R.string.figures_forget_this, "forget-" + row.id) { onEvent(ReckonEvent.Tell(row.id, null)) }
        } else {
            Button(row.title, R.string.figures_say, R.string.figures_say_this, "tell-" + row.id) { onEvent(ReckonEvent.Open(row.id)) }
        }
    }
}

/** Each row has the same, so that its name tells which it is of. */
@Composable
private fun Button(title: String, @StringRes word: Int, @StringRes named: Int, tag: String, onClick: () -> Unit) {
    val name = stringResource(named, title)
    QuietButton(stringResource(word), onClick, Modifier.fillMaxWidth().testTag(tag).semantics { contentDescription = name })
}
