package org.stowfast.app.reading

import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.Column
import androidx.compose.foundation.layout.ExperimentalLayoutApi
import androidx.compose.foundation.layout.FlowRow
import androidx.compose.foundation.layout.Row
import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.foundation.layout.size
import androidx.compose.foundation.lazy.items
import androidx.compose.material3.Icon
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.runtime.LaunchedEffect
import androidx.compose.runtime.collectAsState
import androidx.compose.runtime.getValue
import androidx.compose.runtime.mutableStateOf
import androidx.compose.runtime.saveable.rememberSaveable
import androidx.compose.runtime.setValue
import androidx.compose.ui.Alignment
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.painterResource
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.unit.dp
import androidx.lifecycle.createSavedStateHandle
import androidx.lifecycle.viewmodel.compose.viewModel
import org.stowfast.app.R
import org.stowfast.app.share.reading
import org.stowfast.app.share.telling
import org.stowfast.app.ui.ChoiceButton
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.NumberField
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.QuietButton
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.WhenShown
import org.stowfast.app.ui.grown
import org.stowfast.app.ui.roles
import org.stowfast.app.ui.trouble
import org.stowfast.app.ui.word
import org.stowfast.app.ui.written
import org.stowfast.engine.GaugeRow
import org.stowfast.engine.GaugeUnit
import org.stowfast.engine.QuestionRow
import org.stowfast.engine.VehicleEngine

@Composable
fun ReadingRoute(engine: VehicleEngine, ways: Ways, gauge: String) {
    val model = viewModel(key = "reading") { ReadingViewModel(engine, createSavedStateHandle()) }
    val state by model.state.collectAsState()
    // Once for each time that the page is opened, and not where it is only shown again.
    var begun by rememberSaveable(gauge) { mutableStateOf(false) }
    LaunchedEffect(gauge) {
        if (!begun) model.onEvent(ReadingEvent.Begin(gauge))
        begun = true
    }
    WhenShown(model) { model.onEvent(ReadingEvent.Shown) }
    ReadingScreen(state, ways, model::onEvent)
}

@Composable
fun ReadingScreen(state: ReadingState, ways: Ways, onEvent: (ReadingEvent) -> Unit) {
    Page(stringResource(R.string.reading_heading), ways, trouble(state.problem) { onEvent(ReadingEvent.Dismiss) }, told = telling(state.gauges != null) { reading(state) }) {
        if (state.gauges?.isEmpty() == true) {
            item { Panel { Text(stringResource(R.string.reading_none), style = MaterialTheme.typography.bodyLarge) } }
        }
        // Another gauge asked for is another list, which begins at its top.
        items(state.inOrder(), key = { state.asked.orEmpty() + "/" + it.id }) { gauge ->
            Gauge(gauge, open = state.open == gauge.id, onEvent)
        }
    }
}

/** What was asked for comes first. */
fun ReadingState.inOrder(): List<GaugeRow> = gauges.orEmpty().sortedByDescending { it.id == asked }

@Composable
private fun Gauge(gauge: GaugeRow, open: Boolean, onEvent: (ReadingEvent) -> Unit) {
    val muted = MaterialTheme.colorScheme.onSurfaceVariant
    Panel(Modifier.testTag("gauge-" + gauge.id)) {
        Marked(R.drawable.ic_gauge, size = 28.dp) {
            Text(gauge.title, style = MaterialTheme.typography.titleMedium)
            Text(gauge.currentText, style = MaterialTheme.typography.headlineMedium)
            gauge.ageText?.let { Text(it, style = MaterialTheme.typography.bodyMedium, color = muted) }
        }
        if (!gauge.counts) {
            Marked(R.drawable.mark_unknown, tint = roles.unknown.mark, size = 22.dp) {
                Text(stringResource(R.string.reading_not_counted), style = MaterialTheme.typography.labelMedium)
            }
        }
        gauge.about?.let { Text(it, style = MaterialTheme.typography.bodyMedium) }
        gauge.note?.let { Text(it, style = MaterialTheme.typography.bodyMedium) }
        for (question in gauge.questions) Question(gauge.id, question, onEvent)
        if (open) {
            if (gauge.choices.isEmpty()) Typed(gauge, onEvent) else Choices(gauge, onEvent)
        } else {
            QuietButton(
                stringResource(R.string.reading_enter),
                { onEvent(ReadingEvent.Open(gauge.id)) },
                Modifier.fillMaxWidth().testTag("enter-" + gauge.id),
            )
        }
    }
}

/** What only a person can tell. The answer given is named by a mark and by its state. */
@OptIn(ExperimentalLayoutApi::class)
@Composable
private fun Question(gaugeId: String, question: QuestionRow, onEvent: (ReadingEvent) -> Unit) {
    Text(question.title, style = MaterialTheme.typography.labelMedium)
    FlowRow(horizontalArrangement = Arrangement.spacedBy(8.dp), verticalArrangement = Arrangement.spacedBy(4.dp)) {
        for (choice in question.choices) {
            ChoiceButton(
                choice.text,
                choice.id == question.chosen,
                { onEvent(ReadingEvent.Answer(question.variable, choice.id)) },
                Modifier.testTag("answer-$gaugeId-${question.variable}-${choice.id}"),
            )
        }
    }
}

/** The second of two taps: what the gauge shows. */
@OptIn(ExperimentalLayoutApi::class)
@Composable
private fun Choices(gauge: GaugeRow, onEvent: (ReadingEvent) -> Unit) {
    Column(verticalArrangement = Arrangement.spacedBy(8.dp)) {
        for (choice in gauge.choices) {
            Panel(
                Modifier.testTag("reading-${gauge.id}-${choice.value}"),
                tone = roles.quiet,
                onClick = { onEvent(ReadingEvent.Enter(gauge.id, gauge.unit, choice.value)) },
            ) {
                FlowRow(horizontalArrangement = Arrangement.spacedBy(20.dp), verticalArrangement = Arrangement.spacedBy(6.dp)) {
                    val middle = Modifier.align(Alignment.CenterVertically)
                    if (gauge.unit == GaugeUnit.LAMPS) Lamps(lit = choice.value.toInt(), of = gauge.valueMax.toInt(), middle)
                    Text(choice.text, middle, style = MaterialTheme.typography.titleMedium)
                }
            }
        }
    }
}

/** Lit lamps are discs and dark ones are rings, so that they differ without colour. */
@Composable
private fun Lamps(lit: Int, of: Int, modifier: Modifier) {
    Row(modifier, horizontalArrangement = Arrangement.spacedBy(8.dp), verticalAlignment = Alignment.CenterVertically) {
        repeat(of) { lamp ->
            Icon(
                painterResource(if (lamp < lit) R.drawable.ic_lamp_on else R.drawable.ic_lamp_off),
                null,
                Modifier.size(grown(24.dp)),
                tint = roles.quiet.mark,
            )
        }
    }
}

@Composable
private fun Typed(gauge: GaugeRow, onEvent: (ReadingEvent) -> Unit) {
    val unit = stringResource(gauge.unit.word())
    val range = stringResource(R.string.reading_range, written(gauge.valueMin), written(gauge.valueMax), unit)
    NumberField(gauge.id, stringResource(R.string.reading_shows), range, unit) { onEvent(ReadingEvent.Enter(gauge.id, gauge.unit, it)) }
}
