package org.stowfast.app.vehicle

import androidx.compose.foundation.Image
import androidx.compose.foundation.layout.aspectRatio
import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.foundation.layout.padding
import androidx.compose.foundation.lazy.items
import androidx.compose.foundation.lazy.LazyListScope
import androidx.compose.foundation.lazy.rememberLazyListState
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.runtime.LaunchedEffect
import androidx.compose.runtime.collectAsState
import androidx.compose.runtime.getValue
import androidx.compose.runtime.mutableStateOf
import androidx.compose.runtime.saveable.rememberSaveable
import androidx.compose.runtime.setValue
import androidx.compose.ui.Modifier
import androidx.compose.ui.draw.clip
import androidx.compose.ui.layout.ContentScale
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.painterResource
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.LiveRegionMode
import androidx.compose.ui.semantics.heading
import androidx.compose.ui.semantics.liveRegion
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.unit.dp
import androidx.lifecycle.viewmodel.compose.viewModel
import org.stowfast.app.R
import org.stowfast.app.share.telling
import org.stowfast.app.share.vehicle
import org.stowfast.app.ui.Beside
import org.stowfast.app.ui.Door
import org.stowfast.app.ui.Lines
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.PanelShape
import org.stowfast.app.ui.QuietButton
import org.stowfast.app.ui.SectionHeading
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.WhenShown
import org.stowfast.app.ui.fileMaker
import org.stowfast.app.ui.filePicker
import org.stowfast.app.ui.roles
import org.stowfast.app.ui.trouble
import org.stowfast.engine.DemoRow
import org.stowfast.engine.VehicleEngine
import org.stowfast.engine.VehicleRow

@Composable
fun VehicleRoute(engine: VehicleEngine, ways: Ways, onSettings: () -> Unit, onChosen: () -> Unit) {
    val model = viewModel(key = "vehicle") { VehicleViewModel(engine) }
    val state by model.state.collectAsState()
    var replaces by rememberSaveable { mutableStateOf<Long?>(null) }
    val pick = filePicker { name, text -> model.onEvent(VehicleEvent.OpenPack(name, text, replaces)) }
    val read = filePicker { name, text -> model.onEvent(VehicleEvent.Import(name, text)) }
    val write = fileMaker(EXPORT_TYPE) { file -> model.onEvent(VehicleEvent.Export(file)) }
    LaunchedEffect(state.chosen) {
        if (state.chosen) {
            model.onEvent(VehicleEvent.Left)
            onChosen()
        }
    }
    WhenShown(model) { model.onEvent(VehicleEvent.Shown) }
    val openPack = { vehicle: Long? ->
        replaces = vehicle
        pick()
    }
    VehicleScreen(state, ways, VehicleFiles(openPack, read, { write(EXPORT_NAME) }), onSettings, model::onEvent)
}

private const val EXPORT_TYPE = "application/json"
private const val EXPORT_NAME = "stowfast.json"

/** What asks for a file. [openPack] is given the vehicle whose pack is to be replaced, or null for a vehicle that is new. */
data class VehicleFiles(val openPack: (Long?) -> Unit, val import: () -> Unit, val export: () -> Unit)

@Composable
fun VehicleScreen(state: VehicleState, ways: Ways, files: VehicleFiles, onSettings: () -> Unit, onEvent: (VehicleEvent) -> Unit) {
    val first = state.vehicles.isNullOrEmpty()
    val title = stringResource(if (first) R.string.app_name else R.string.vehicle_heading)
    val list = rememberLazyListState()
    LaunchedEffect(state.written, state.unreadable) { if (state.written != null || state.unreadable) list.scrollToItem(0) }
    val besides = rememberLazyListState()
    Page(
        title,
        ways,
        trouble(state.problem) { onEvent(VehicleEvent.Dismiss) },
        list,
        told = telling(state.vehicles != null) { vehicle(state) },
        beside = Beside(besides) { papers(state, files, onSettings) },
    ) {
        if (state.unreadable) {
            item { Unreadable { onEvent(VehicleEvent.Dismiss) } }
        }
        state.written?.let { file -> item { Saved(file) { onEvent(VehicleEvent.Dismiss) } } }
        if (first) {
            item { Welcome() }
        } else {
            item { SectionHeading(stringResource(R.string.vehicle_yours)) }
            items(state.vehicles.orEmpty(), key = { it.id }) { row ->
                Vehicle(row) { onEvent(VehicleEvent.Choose(row.id)) }
            }
        }
        if (state.demos.isNotEmpty()) item { SectionHeading(stringResource(R.string.vehicle_demo)) }
        items(state.demos, key = { "demo-" + it.id }) { demo ->
            Demo(demo) { onEvent(VehicleEvent.AddDemo(demo.id)) }
        }
    }
}

/** A vehicle's own pack, and everything in one file. */
private fun LazyListScope.papers(state: VehicleState, files: VehicleFiles, onSettings: () -> Unit) {
    item { SectionHeading(stringResource(R.string.vehicle_pack)) }
    item {
        Panel {
            Text(stringResource(R.string.vehicle_pack_about), style = MaterialTheme.typography.bodyLarge)
            if (state.vehicles.orEmpty().none { !it.invented }) Text(stringResource(R.string.vehicle_pack_none), style = MaterialTheme.typography.bodyLarge)
            QuietButton(
                stringResource(R.string.vehicle_open_pack),
                { files.openPack(null) },
                Modifier.fillMaxWidth(),
                icon = R.drawable.ic_file,
            )
            state.vehicles?.find { it.current && !it.invented }?.let { own ->
                QuietButton(
                    stringResource(R.string.vehicle_replace_pack, own.title),
                    { files.openPack(own.id) },
                    Modifier.fillMaxWidth(),
                    icon = R.drawable.ic_file,
                )
            }
        }
    }
    item { SectionHeading(stringResource(R.string.vehicle_everything)) }
    item { Everything(state.vehicles.isNullOrEmpty(), files) }
    item { Door(R.drawable.ic_settings, R.string.settings_heading, stringResource(R.string.settings_door), "settings", onClick = onSettings) }
}

/** Into one file, and from one. Where there is nothing, nothing can be written. */
@Composable
private fun Everything(first: Boolean, files: VehicleFiles) {
    Panel {
        Text(stringResource(R.string.vehicle_everything_about), style = MaterialTheme.typography.bodyLarge)
        if (!first) {
            QuietButton(stringResource(R.string.vehicle_export), files.export, Modifier.fillMaxWidth().testTag("export"), icon = R.drawable.ic_up)
        }
        QuietButton(stringResource(R.string.vehicle_import), files.import, Modifier.fillMaxWidth().testTag("import"), icon = R.drawable.ic_down)
    }
}

@Composable
private fun Saved(file: Written, onDismiss: () -> Unit) {
    val tone = if (file.whole) roles.clear else roles.blocked
    Panel(Modifier.testTag("written").semantics { liveRegion = LiveRegionMode.Assertive }, tone = tone) {
        Marked(if (file.whole) R.drawable.mark_clear else R.drawable.mark_blocked, tint = tone.mark) {
            val text = if (file.whole) R.string.vehicle_written else R.string.vehicle_not_written
            Text(stringResource(text, file.name), style = MaterialTheme.typography.bodyLarge)
        }
        QuietButton(stringResource(R.string.understood), onDismiss)
    }
}

private const val HERO_RATIO = 360f / 150f

@Composable
private fun Welcome() {
    Image(
        painterResource(R.drawable.hero),
        null,
        Modifier.fillMaxWidth().aspectRatio(HERO_RATIO).clip(PanelShape),
        contentScale = ContentScale.Crop,
    )
    Panel(Modifier.padding(top = 12.dp)) {
        Text(
            stringResource(R.string.vehicle_welcome),
            Modifier.semantics { heading() },
            style = MaterialTheme.typography.headlineMedium,
        )
        Lines(
            listOf(
                stringResource(R.string.vehicle_first_1),
                stringResource(R.string.vehicle_first_2),
                stringResource(R.string.vehicle_first_3),
            ),
        )
    }
}

@Composable
private fun Unreadable(onDismiss: () -> Unit) {
    Panel(tone = roles.blocked) {
        Text(stringResource(R.string.vehicle_unreadable), style = MaterialTheme.typography.bodyLarge)
        QuietButton(stringResource(R.string.understood), onDismiss)
    }
}

@Composable
private fun Vehicle(row: VehicleRow, onClick: () -> Unit) {
    Panel(Modifier.testTag("vehicle"), tone = if (row.current) roles.quiet else null, onClick = onClick) {
        Marked(if (row.current) R.drawable.mark_clear else R.drawable.ic_van) {
            Text(row.title, style = MaterialTheme.typography.titleMedium)
            if (row.current) Text(stringResource(R.string.vehicle_current), style = MaterialTheme.typography.bodyMedium)
            if (row.invented) Text(stringResource(R.string.vehicle_invented), style = MaterialTheme.typography.bodyMedium)
        }
        row.problem?.let { problem ->
            Marked(R.drawable.ic_danger, tint = roles.unknown.mark) {
                Text(problem, style = MaterialTheme.typography.bodyMedium)
            }
        }
    }
}

@Composable
private fun Demo(demo: DemoRow, onClick: () -> Unit) {
    Panel(Modifier.testTag("demo"), onClick = onClick) {
        Marked(R.drawable.ic_van) {
            Text(demo.title, style = MaterialTheme.typography.titleMedium)
            Text(
                demo.about,
                style = MaterialTheme.typography.bodyMedium,
                color = MaterialTheme.colorScheme.onSurfaceVariant,
            )
        }
    }
}
