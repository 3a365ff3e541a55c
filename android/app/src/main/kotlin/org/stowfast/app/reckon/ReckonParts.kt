package org.stowfast.app.reckon

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
import androidx.compose.ui.unit.dp
import org.stowfast.app.R
import org.stowfast.app.ui.ChoiceButton
import org.stowfast.app.ui.Entry
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Named
import org.stowfast.app.ui.NumberField
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.QuietButton
import org.stowfast.app.ui.grown
import org.stowfast.engine.Choice
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
@Composable
internal fun ChoiceEntry(choice: Choice, open: Boolean, onEvent: (ReckonEvent) -> Unit) {
    val lacking = stringResource(R.string.reckon_not_picked)
    val turn = { onEvent(ReckonEvent.Open(choice.id)) }
    Entry(choice.id, choice.title, choice.picked(), lacking, emptyList(), open, turn) {
        val number = choice.number
        if (number == null) {
            Options(choice, onEvent)
        } else {
            NumberField(choice.id, stringResource(R.string.figures_number), number.rangeText, null) { onEvent(ReckonEvent.Number(choice.id, it)) }
            if (number.value != null) QuietButton(stringResource(R.string.reckon_none), { onEvent(ReckonEvent.Number(choice.id, null)) }, Modifier.fillMaxWidth().testTag("none-" + choice.id))
        }
    }
}

@OptIn(ExperimentalLayoutApi::class)
@Composable
private fun Options(choice: Choice, onEvent: (ReckonEvent) -> Unit) {
    if (choice.many) Text(stringResource(R.string.reckon_several), style = MaterialTheme.typography.bodyMedium, color = MaterialTheme.colorScheme.onSurfaceVariant)
    FlowRow(horizontalArrangement = Arrangement.spacedBy(8.dp), verticalArrangement = Arrangement.spacedBy(4.dp)) {
        for (option in choice.options) {
            val button = Modifier.testTag("pick-${choice.id}-${option.id}")
            ChoiceButton(option.title, option.chosen, { onEvent(ReckonEvent.Choose(choice.id, option.id)) }, button)
        }
    }
}

/** What is picked, in words; null where nothing is. */
internal fun Choice.picked(): String? = number.let { if (it == null) options.filter { option -> option.chosen }.joinToString(", ") { option -> option.title }.ifEmpty { null } else it.valueText }
