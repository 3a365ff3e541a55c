package org.stowfast.app.drivecard

import androidx.compose.foundation.lazy.LazyListScope
import androidx.compose.foundation.lazy.items
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.runtime.collectAsState
import androidx.compose.runtime.getValue
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.text.TextStyle
import androidx.compose.ui.text.font.FontWeight
import androidx.compose.ui.unit.sp
import androidx.lifecycle.viewmodel.compose.viewModel
import org.stowfast.app.R
import org.stowfast.app.share.driveCard
import org.stowfast.app.ui.Caution
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.WhenShown
import org.stowfast.app.ui.roles
import org.stowfast.app.ui.trouble
import org.stowfast.engine.DriveCardPage
import org.stowfast.engine.DriveCardRow
import org.stowfast.engine.VehicleEngine

@Composable
fun DriveCardRoute(engine: VehicleEngine, ways: Ways) {
    val model = viewModel(key = "drive-card") { DriveCardViewModel(engine) }
    val state by model.state.collectAsState()
    WhenShown(model) { model.onEvent(DriveCardEvent.Shown) }
    DriveCardScreen(state, ways, model::onEvent)
}

@Composable
fun DriveCardScreen(state: DriveCardState, ways: Ways, onEvent: (DriveCardEvent) -> Unit) {
    Page(stringResource(R.string.drive_card_heading), ways, trouble(state.problem) { onEvent(DriveCardEvent.Dismiss) }, told = state.page?.let { { driveCard(it) } }) {
        state.page?.let { driveCard(it) }
    }
}

/** The height stands largest, the rest below it. */
fun LazyListScope.driveCard(page: DriveCardPage) {
    item { Height(page.height) }
    items(page.rows, key = { it.id }) { Measure(it) }
    items(page.cautions) { Caution(it) }
}

@Composable
private fun Height(row: DriveCardRow) {
    Panel(Modifier.testTag("height").semantics(mergeDescendants = true) { }, tone = if (row.known) roles.quiet else roles.unknown) {
        Text(row.title, style = MaterialTheme.typography.titleMedium)
        if (row.known) {
            Text(row.text, style = Largest)
        } else {
            Missing { Text(row.text, style = MaterialTheme.typography.displaySmall) }
        }
        Text(row.note, style = MaterialTheme.typography.bodyLarge)
    }
}

@Composable
private fun Measure(row: DriveCardRow) {
    Panel(Modifier.testTag("measure-" + row.id).semantics(mergeDescendants = true) { }) {
        Text(row.title, style = MaterialTheme.typography.bodyLarge)
        if (row.known) {
            Text(row.text, style = MaterialTheme.typography.headlineMedium)
        } else {
            Missing { Text(row.text, style = MaterialTheme.typography.titleMedium) }
        }
        Text(row.note, style = MaterialTheme.typography.bodyMedium, color = MaterialTheme.colorScheme.onSurfaceVariant)
    }
}

@Composable
private fun Missing(words: @Composable () -> Unit) =
    Marked(R.drawable.ic_question, tint = roles.unknown.mark) { words() }

private val Largest = TextStyle(fontSize = 52.sp, lineHeight = 60.sp, fontWeight = FontWeight.Bold)
