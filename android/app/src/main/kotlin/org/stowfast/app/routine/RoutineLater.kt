package org.stowfast.app.routine

import androidx.annotation.StringRes
import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.Column
import androidx.compose.foundation.layout.padding
import androidx.compose.foundation.lazy.LazyListScope
import androidx.compose.foundation.lazy.items
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.runtime.getValue
import androidx.compose.runtime.mutableStateOf
import androidx.compose.runtime.saveable.rememberSaveable
import androidx.compose.runtime.setValue
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.heading
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.unit.dp
import org.stowfast.app.R
import org.stowfast.app.ui.Caution
import org.stowfast.app.ui.Folding
import org.stowfast.app.ui.Lines
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Named
import org.stowfast.app.ui.SectionHeading
import org.stowfast.app.ui.roles
import org.stowfast.engine.StepKind
import org.stowfast.engine.StepRow

/** What comes, in order, under the places that it leads through. The step [sought] is open from the start. */
fun LazyListScope.rest(later: List<Later>, sought: String?, @StringRes heading: Int) {
    if (later.isEmpty()) return
    item { SectionHeading(stringResource(heading)) }
    items(later) { row ->
        when (row) {
            is Later.Zone -> Text(
                row.title,
                Modifier.padding(top = 4.dp, start = 4.dp).semantics { heading() },
                style = MaterialTheme.typography.labelMedium,
                color = MaterialTheme.colorScheme.primary,
            )
            is Later.Next -> LaterGesture(row.gesture, sought)
            is Later.PartEnd -> Marked(R.drawable.ic_clock, Modifier.padding(horizontal = 4.dp, vertical = 8.dp), size = 22.dp) {
                Text(row.text, style = MaterialTheme.typography.titleMedium)
            }
        }
    }
}

/** A tap opens why it comes, and shuts it again. */
@Composable
private fun LaterGesture(gesture: Gesture, sought: String?) {
    val meant = sought in gesture.row.steps
    var open by rememberSaveable(gesture.id) { mutableStateOf(meant) }
    Folding(open, { open = !open }, Modifier.testTag("later-" + gesture.id), if (meant) roles.quiet else null) {
        for (step in gesture.steps) LaterStep(step, open)
    }
}

@Composable
private fun LaterStep(step: StepRow, open: Boolean) {
    Column(verticalArrangement = Arrangement.spacedBy(8.dp)) {
        Marked(step.kind.icon(), tint = MaterialTheme.colorScheme.onSurfaceVariant, size = 22.dp) {
            Text(step.text, style = MaterialTheme.typography.bodyLarge)
        }
        if (open) {
            Text(step.zoneTitle, style = MaterialTheme.typography.labelMedium, color = MaterialTheme.colorScheme.primary)
            when (step.kind) {
                StepKind.MOVE -> Named(stringResource(R.string.routine_wanted), step.wanted)
                StepKind.LOOK -> Named(stringResource(R.string.routine_wanted_look), step.wanted)
                StepKind.WAIT -> Unit
            }
            Lines(step.why)
            for (caution in step.cautions) Caution(caution)
        }
    }
}
