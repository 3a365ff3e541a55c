package org.stowfast.app.fault

import android.content.ClipData
import android.content.ClipboardManager
import android.content.Context
import android.content.Intent
import androidx.annotation.DrawableRes
import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.Column
import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.foundation.layout.heightIn
import androidx.compose.foundation.lazy.LazyListScope
import androidx.compose.foundation.lazy.items
import androidx.compose.foundation.text.selection.SelectionContainer
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.LocalContext
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.LiveRegionMode
import androidx.compose.ui.semantics.heading
import androidx.compose.ui.semantics.liveRegion
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.unit.dp
import org.stowfast.app.R
import org.stowfast.app.ui.Lines
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.QuietButton
import org.stowfast.app.ui.SectionHeading
import org.stowfast.app.ui.Tone
import org.stowfast.app.ui.roles
import org.stowfast.engine.ActionRow
import org.stowfast.engine.CauseRow
import org.stowfast.engine.FaultPage
import org.stowfast.engine.FaultStage
import org.stowfast.engine.LinkRow

/** The cause, what to do about it, and what leads on; or whom to ask, and what to show them. */
internal fun LazyListScope.cause(page: FaultPage, row: CauseRow, on: FaultWays) {
    item(key = "cause") { Cause(page, row) }
    row.routine?.let { link("routine", R.drawable.ic_route, it, on.preview) }
    items(row.steps, key = { "step-" + it.id }) { Step(it, on.may) }
    for (card in row.cards) link("card", R.drawable.ic_card, card, on.card)
    if (page.fault.stage != FaultStage.HELPER) return
    item { SectionHeading(stringResource(R.string.fault_account)) }
    item(key = "account") { Account(page) }
}

@Composable
private fun Cause(page: FaultPage, row: CauseRow) {
    val (mark, tone) = page.fault.stage.look()
    Panel(Modifier.testTag("cause"), tone = tone) {
        Marked(mark, tint = tone.mark, size = 40.dp) {
            Text(page.headline, style = MaterialTheme.typography.bodyMedium)
            Text(row.text, Modifier.semantics { heading(); liveRegion = LiveRegionMode.Polite }, style = MaterialTheme.typography.headlineMedium)
        }
        row.helperText?.let { Text(it, style = MaterialTheme.typography.titleLarge) }
        Lines(row.remedy)
    }
}

/** A shape for each end: it can be mended, nothing is wrong, or somebody else has to see to it. */
@Composable
private fun FaultStage.look(): Pair<Int, Tone> = when (this) {
    FaultStage.NORMAL, FaultStage.MENDED -> R.drawable.mark_clear to roles.clear
    FaultStage.HELPER -> R.drawable.ic_two to roles.unknown
    FaultStage.FOUND, FaultStage.ASKING -> R.drawable.ic_fault to roles.quiet
}

internal fun LazyListScope.link(tag: String, @DrawableRes icon: Int, row: LinkRow, open: (String) -> Unit) {
    item(key = "$tag-${row.id}") {
        Panel(Modifier.testTag("$tag-${row.id}"), onClick = { open(row.id) }, end = R.drawable.ic_forward) {
            Marked(icon) { Text(row.title, style = MaterialTheme.typography.titleMedium) }
        }
    }
}

/** A step that mends it. A tap asks whether it may be done now. */
@Composable
private fun Step(step: ActionRow, onMay: (String) -> Unit) {
    Panel(Modifier.heightIn(min = 64.dp).testTag("step-" + step.id), onClick = { onMay(step.id) }, end = R.drawable.ic_forward) {
        Marked(if (step.hazard) R.drawable.ic_danger else R.drawable.ic_todo) {
            Text(step.text, style = MaterialTheme.typography.titleMedium)
            Text(step.zoneTitle, style = MaterialTheme.typography.bodyMedium)
        }
    }
}

/** All that was known and tried, in words that can be picked out, copied or sent as they stand. */
@Composable
private fun Account(page: FaultPage) {
    Panel(Modifier.testTag("account")) {
        SelectionContainer {
            Column(verticalArrangement = Arrangement.spacedBy(6.dp)) { for (line in page.account.lines()) Text(line, style = MaterialTheme.typography.bodyLarge) }
        }
        val context = LocalContext.current
        QuietButton(stringResource(R.string.fault_account_share), { context.send(page) }, Modifier.fillMaxWidth().testTag("share-account"), R.drawable.ic_share)
        QuietButton(stringResource(R.string.fault_account_copy), { context.copy(page) }, Modifier.fillMaxWidth().testTag("copy-account"), R.drawable.ic_note)
    }
}

private fun Context.send(page: FaultPage) {
    val text = Intent(Intent.ACTION_SEND)
        .setType("text/plain")
        .putExtra(Intent.EXTRA_SUBJECT, page.fault.title)
        .putExtra(Intent.EXTRA_TEXT, page.account)
    startActivity(Intent.createChooser(text, null))
}

private fun Context.copy(page: FaultPage) =
    getSystemService(ClipboardManager::class.java).setPrimaryClip(ClipData.newPlainText(page.fault.title, page.account))
