package org.stowfast.app.now

import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.LocalContext
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.unit.dp
import org.stowfast.app.R
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Named
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.countdown
import org.stowfast.app.ui.look
import org.stowfast.app.ui.roles
import org.stowfast.engine.FridgePage
import org.stowfast.engine.ItemRow

/** One thing in the way. A tap leads to why, and to its step. */
@Composable
fun Item(row: ItemRow, onClick: () -> Unit) {
    Panel(Modifier.testTag("item-" + row.variable), onClick = onClick, end = R.drawable.ic_forward) { Standing(row) }
}

/** What a thing in the way is, what it must show and what it shows. */
@Composable
fun Standing(row: ItemRow) {
    val look = row.severity.look()
    val tone = if (row.knownBad) roles.blocked else roles.unknown
    Marked(look.mark, tint = tone.mark, size = 30.dp) {
        Text(row.title, style = MaterialTheme.typography.titleMedium)
        Text(
            listOf(
                stringResource(look.word),
                stringResource(if (row.knownBad) R.string.now_known_bad else R.string.now_not_known),
                row.zoneTitle,
            ).joinToString(" · "),
            style = MaterialTheme.typography.bodyMedium,
            color = MaterialTheme.colorScheme.onSurfaceVariant,
        )
    }
    Named(stringResource(R.string.now_wanted), row.wanted)
    Named(stringResource(R.string.now_seen), row.seen)
}

/** What the fridge runs on, and what comes next. */
@Composable
fun FridgeCard(page: FridgePage, nowUtcMs: Long, onClick: () -> Unit) {
    val look = page.source.look()
    Panel(Modifier.testTag("fridge"), onClick = onClick, end = R.drawable.ic_forward) {
        Marked(look.mark, size = 32.dp) {
            Text(page.title, style = MaterialTheme.typography.titleMedium)
            Text(page.headline, style = MaterialTheme.typography.bodyLarge)
            page.nextText?.let { next ->
                val left = page.nextChangeUtcMs?.let { LocalContext.current.countdown(it, nowUtcMs) }
                Text(
                    if (left == null) next else "$next ($left)",
                    style = MaterialTheme.typography.bodyMedium,
                    color = MaterialTheme.colorScheme.onSurfaceVariant,
                )
            }
        }
    }
}
