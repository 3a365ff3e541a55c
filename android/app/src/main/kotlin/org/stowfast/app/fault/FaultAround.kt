package org.stowfast.app.fault

import android.content.Context
import androidx.compose.foundation.layout.fillMaxWidth
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
import androidx.compose.ui.unit.dp
import org.stowfast.app.R
import org.stowfast.app.routine.duration
import org.stowfast.app.ui.Folding
import org.stowfast.app.ui.Lines
import org.stowfast.app.ui.MainButton
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.QuietButton
import org.stowfast.app.ui.SectionHeading
import org.stowfast.app.ui.roles
import org.stowfast.engine.CheckRow
import org.stowfast.engine.FaultPage
import org.stowfast.engine.FaultStage
import org.stowfast.engine.LikelyRow
import org.stowfast.engine.RedRow
import org.stowfast.engine.TriedRow

/** What stands around the question: what was said, what it may be, what is known already. */
internal fun LazyListScope.around(page: FaultPage, on: FaultWays, onEvent: (FaultEvent) -> Unit) {
    if (page.showsRed.isNotEmpty()) item { SectionHeading(stringResource(R.string.fault_may_show)) }
    items(page.showsRed, key = { "alert-" + it.id }) { Red(it) { on.alert(it.id) } }
    if (page.tried.isNotEmpty()) item { SectionHeading(stringResource(R.string.fault_tried)) }
    items(page.tried, key = { "tried-" + it.entry }) { Tried(it, last = it == page.tried.last(), onEvent) }
    if (page.fault.stage != FaultStage.MENDED && page.likely.size > 1) {
        item { SectionHeading(stringResource(R.string.fault_likely)) }
        item { Panel(Modifier.testTag("likely")) { page.likely.forEach { Likely(it) } } }
    }
    if (page.expectedText.isNotEmpty()) item { Text(page.expectedText, style = MaterialTheme.typography.bodyLarge) }
    if (page.settled.isNotEmpty()) {
        item { SectionHeading(stringResource(R.string.fault_settled)) }
        item { Panel(Modifier.testTag("settled")) { Lines(page.settled) } }
    }
    linked(page, on)
    if (page.tried.isNotEmpty()) item(key = "again") { Again { onEvent(FaultEvent.Again) } }
    item {
        Text(
            stringResource(R.string.fault_source, page.source, page.likelihood),
            style = MaterialTheme.typography.bodyMedium,
            color = MaterialTheme.colorScheme.onSurfaceVariant,
        )
    }
}

/** An alert that goes with it: what shows now is marked, and says so. */
@Composable
private fun Red(row: RedRow, onClick: () -> Unit) {
    Panel(Modifier.testTag("alert-" + row.id), tone = roles.blocked.takeIf { row.shows }, onClick = onClick, end = R.drawable.ic_forward) {
        Marked(R.drawable.ic_red, tint = if (row.shows) roles.blocked.mark else MaterialTheme.colorScheme.onSurfaceVariant) {
            Text(row.title, style = MaterialTheme.typography.titleMedium)
            if (row.shows) Text(stringResource(R.string.fault_red), style = MaterialTheme.typography.bodyMedium)
        }
    }
}

/** The cards that belong to it, but for those of the cause. */
fun FaultPage.otherCards() = found?.cards.orEmpty().toSet().let { named -> cards - named }

/** What may belong to it, but for what stands above already. */
private fun LazyListScope.linked(page: FaultPage, on: FaultWays) {
    val cards = page.otherCards()
    if (cards.isNotEmpty()) item { SectionHeading(stringResource(R.string.hit_card)) }
    for (card in cards) link("card", R.drawable.ic_card, card, on.card)
}

/** A word and a figure: it is no more than a sense of size. */
@Composable
private fun Likely(row: LikelyRow) {
    Text(row.text, style = MaterialTheme.typography.titleMedium)
    Text(
        stringResource(R.string.fault_chance, row.chanceText, row.chancePct),
        style = MaterialTheme.typography.bodyMedium,
        color = MaterialTheme.colorScheme.onSurfaceVariant,
    )
}

/** What was said. A tap opens the way to take it back: the last as an undo, an earlier one to be asked anew. */
@Composable
private fun Tried(row: TriedRow, last: Boolean, onEvent: (FaultEvent) -> Unit) {
    var open by rememberSaveable(row.entry) { mutableStateOf(last) }
    Folding(open, { open = !open }, Modifier.testTag("tried-" + row.entry)) {
        Marked(R.drawable.ic_word) { Text(row.text, style = MaterialTheme.typography.bodyLarge) }
    }
    if (open) {
        QuietButton(
            stringResource(if (last) R.string.fault_undo else R.string.fault_take_back),
            { onEvent(if (last) FaultEvent.Undo else FaultEvent.TakeBack(row.entry)) },
            Modifier.fillMaxWidth().padding(top = 8.dp).testTag(if (last) "undo" else "take-back-" + row.entry),
            icon = R.drawable.ic_undo,
        )
    }
}

/** The first tap opens it, the second begins anew. */
@Composable
private fun Again(onAgain: () -> Unit) {
    var open by rememberSaveable { mutableStateOf(false) }
    Folding(open, { open = !open }, Modifier.testTag("again")) {
        Marked(R.drawable.ic_resume) {
            Text(stringResource(R.string.fault_again), style = MaterialTheme.typography.titleMedium)
            Text(stringResource(R.string.fault_again_about), style = MaterialTheme.typography.bodyMedium)
        }
    }
    if (open) {
        MainButton(stringResource(R.string.fault_again_go), {
            open = false
            onAgain()
        }, Modifier.padding(top = 8.dp).testTag("again-go"))
    }
}

/** How long a look takes, and the walk to it. */
fun Context.lasts(row: CheckRow): String {
    val own = duration(row.handsOnS)
    return if (row.walkS > 0) getString(R.string.routine_takes_walk, own, duration(row.walkS)) else getString(R.string.routine_takes, own)
}
