package org.stowfast.app.place

import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.ExperimentalLayoutApi
import androidx.compose.foundation.layout.FlowRow
import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.foundation.lazy.LazyListScope
import androidx.compose.foundation.lazy.rememberLazyListState
import androidx.compose.foundation.lazy.items
import androidx.compose.foundation.text.KeyboardActions
import androidx.compose.foundation.text.KeyboardOptions
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.OutlinedTextField
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.runtime.LaunchedEffect
import androidx.compose.runtime.collectAsState
import androidx.compose.runtime.getValue
import androidx.compose.runtime.mutableStateOf
import androidx.compose.runtime.saveable.rememberSaveable
import androidx.compose.runtime.setValue
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.text.input.KeyboardCapitalization
import androidx.compose.ui.unit.dp
import androidx.lifecycle.viewmodel.compose.viewModel
import org.stowfast.app.R
import org.stowfast.app.share.arrive
import org.stowfast.app.share.place
import org.stowfast.app.share.telling
import org.stowfast.app.ui.Beside
import org.stowfast.app.ui.ChoiceButton
import org.stowfast.app.ui.Lines
import org.stowfast.app.ui.MainButton
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.QuietButton
import org.stowfast.app.ui.SectionHeading
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.WhenShown
import org.stowfast.app.ui.filePicker
import org.stowfast.app.ui.mark
import org.stowfast.app.ui.roles
import org.stowfast.app.ui.trouble
import org.stowfast.engine.PlaceRow
import org.stowfast.engine.RuleRow
import org.stowfast.engine.VehicleEngine

/** Where the vehicle is; or with [arriving], where it has come to stand. */
@Composable
fun PlaceRoute(engine: VehicleEngine, ways: Ways, arriving: Boolean, onArrive: () -> Unit, onArrived: () -> Unit) {
    val model = viewModel(key = "place") { PlaceViewModel(engine) }
    val state by model.state.collectAsState()
    LaunchedEffect(state.arrived) {
        if (state.arrived) {
            model.onEvent(PlaceEvent.Left)
            onArrived()
        }
    }
    WhenShown(model) { model.onEvent(PlaceEvent.Shown) }
    if (arriving) {
        val openFile = filePicker { name, text -> model.onEvent(PlaceEvent.OpenFile(name, text)) }
        ArriveScreen(state, ways, openFile, model::onEvent)
    } else {
        PlaceScreen(state, ways, onArrive, model::onEvent)
    }
}

/** What was told of the place, and of the countries and carriers that have a say on the road. */
@Composable
fun PlaceScreen(state: PlaceState, ways: Ways, onArrive: () -> Unit, onEvent: (PlaceEvent) -> Unit) {
    val now = state.now
    val (carriers, countries) = state.rules.partition { it.carrier != null }
    val besides = rememberLazyListState()
    Page(
        stringResource(R.string.place_heading),
        ways,
        trouble(state.problem) { onEvent(PlaceEvent.Dismiss) },
        bottom = {
            val text = if (now?.moving == true) R.string.now_arrived else R.string.place_choose
            MainButton(stringResource(text), onArrive, icon = R.drawable.ic_place)
        },
        told = telling(now != null) { place(state) },
        beside = Beside(besides) {
            item { SectionHeading(stringResource(R.string.place_carrier)) }
            item {
                Panel { Picker(carriers) { row -> row.carrier?.let { onEvent(PlaceEvent.Carrier(it)) } } }
            }
            rules(state.rules.filter { it.told })
        },
    ) {
        if (now != null) {
            item {
                Panel(Modifier.testTag("place")) {
                    if (now.placeTitle.isEmpty()) {
                        Text(stringResource(R.string.place_none), style = MaterialTheme.typography.bodyLarge)
                    } else {
                        Lines(now.placeTitle.split(PLACE_SEPARATOR))
                    }
                }
            }
        }
        item { SectionHeading(stringResource(R.string.place_country)) }
        item { Countries(countries, onEvent) }
    }
}

/** What the engine puts between two things that it says of a place. */
const val PLACE_SEPARATOR = " · "

@Composable
private fun Countries(rules: List<RuleRow>, onEvent: (PlaceEvent) -> Unit) {
    var other by rememberSaveable { mutableStateOf(false) }
    var code by rememberSaveable { mutableStateOf("") }
    Panel {
        Picker(rules) { onEvent(PlaceEvent.Country(it.place)) }
        if (!other) {
            QuietButton(stringResource(R.string.place_other_country), { other = true }, Modifier.testTag("other-country"))
        } else {
            val tell = { onEvent(PlaceEvent.Country(code.trim())) }
            OutlinedTextField(
                code,
                { code = it },
                Modifier.fillMaxWidth().testTag("country-code"),
                textStyle = MaterialTheme.typography.titleLarge,
                label = { Text(stringResource(R.string.place_code)) },
                singleLine = true,
                keyboardOptions = KeyboardOptions(capitalization = KeyboardCapitalization.Characters),
                keyboardActions = KeyboardActions(onDone = { tell() }),
            )
            QuietButton(stringResource(R.string.place_tell), tell, Modifier.fillMaxWidth().testTag("tell-country"))
        }
    }
}

/** One button for each country or carrier that something is known of. */
@OptIn(ExperimentalLayoutApi::class)
@Composable
private fun Picker(rules: List<RuleRow>, onPick: (RuleRow) -> Unit) {
    FlowRow(horizontalArrangement = Arrangement.spacedBy(8.dp), verticalArrangement = Arrangement.spacedBy(8.dp)) {
        for (row in rules.distinctBy { it.place }) {
            ChoiceButton(row.placeTitle, row.told, { onPick(row) }, Modifier.testTag("tell-" + row.place))
        }
    }
}

private fun LazyListScope.rules(told: List<RuleRow>) {
    if (told.isEmpty()) return
    item { SectionHeading(stringResource(R.string.place_rules)) }
    items(told, key = { "${it.place}-${it.rule}" }) { row ->
        Panel(Modifier.testTag("rule")) {
            Text(row.placeTitle, style = MaterialTheme.typography.labelMedium, color = MaterialTheme.colorScheme.primary)
            val (mark, tone) = row.says.mark()
            Marked(mark, tint = tone.mark, size = 28.dp) {
                Text("${row.title}: ${row.saysText}", style = MaterialTheme.typography.titleMedium)
            }
            Text(row.note, style = MaterialTheme.typography.bodyLarge)
            Text(
                stringResource(R.string.place_source, row.source, row.date),
                style = MaterialTheme.typography.bodyMedium,
                color = MaterialTheme.colorScheme.onSurfaceVariant,
            )
        }
    }
    item {
        Text(
            stringResource(R.string.place_rules_about),
            style = MaterialTheme.typography.bodyMedium,
            color = MaterialTheme.colorScheme.onSurfaceVariant,
        )
    }
}

/** Where the vehicle stands now: one tap. */
@Composable
fun ArriveScreen(state: PlaceState, ways: Ways, onOpenFile: () -> Unit, onEvent: (PlaceEvent) -> Unit) {
    Page(stringResource(R.string.arrive_heading), ways, trouble(state.problem) { onEvent(PlaceEvent.Dismiss) }, told = { arrive(state) }) {
        if (state.unreadable) {
            item {
                Panel(tone = roles.blocked) {
                    Text(stringResource(R.string.vehicle_unreadable), style = MaterialTheme.typography.bodyLarge)
                    QuietButton(stringResource(R.string.understood), { onEvent(PlaceEvent.Dismiss) })
                }
            }
        }
        item {
            Choice("elsewhere", R.drawable.ic_question, stringResource(R.string.arrive_elsewhere), stringResource(R.string.arrive_elsewhere_about)) {
                onEvent(PlaceEvent.Elsewhere)
            }
        }
        item {
            Choice("file", R.drawable.ic_file, stringResource(R.string.arrive_file), stringResource(R.string.arrive_file_about), onOpenFile)
        }
        val (invented, known) = state.places.partition { it.invented }
        items(known, key = { it.id }) { Known(it, onEvent) }
        if (invented.isNotEmpty()) item { SectionHeading(stringResource(R.string.arrive_invented)) }
        items(invented, key = { it.id }) { Known(it, onEvent) }
    }
}

@Composable
private fun Known(place: PlaceRow, onEvent: (PlaceEvent) -> Unit) =
    Choice(place.id, R.drawable.ic_place, place.title, place.about) { onEvent(PlaceEvent.ArriveAt(place.id)) }

@Composable
private fun Choice(name: String, icon: Int, title: String, about: String, onClick: () -> Unit) {
    Panel(Modifier.testTag("arrive-$name"), onClick = onClick) {
        Marked(icon, size = 26.dp) {
            Text(title, style = MaterialTheme.typography.titleMedium)
            Text(about, style = MaterialTheme.typography.bodyMedium, color = MaterialTheme.colorScheme.onSurfaceVariant)
        }
    }
}
