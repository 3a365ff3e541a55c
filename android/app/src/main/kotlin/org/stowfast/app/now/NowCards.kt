package org.stowfast.app.now

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
import androidx.compose.ui.text.SpanStyle
import androidx.compose.ui.text.buildAnnotatedString
import androidx.compose.ui.text.font.FontWeight
import androidx.compose.ui.unit.dp
import org.stowfast.app.R
import org.stowfast.app.ui.Caution
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.countdown
import org.stowfast.app.ui.look
import org.stowfast.app.ui.roles
import org.stowfast.engine.FridgePage
import org.stowfast.engine.ItemRow

/** One thing in the way. A tap opens why. */
@Composable
fun Item(row: ItemRow, modifier: Modifier = Modifier) {
    var open by rememberSaveable(row.variable) { mutableStateOf(false) }
    val look = row.severity.look()
    val tone = if (row.knownBad) roles.blocked else roles.unknown
    val muted = MaterialTheme.colorScheme.onSurfaceVariant
    Panel(modifier.testTag("item"), onClick = { open = !open }) {
        Marked(look.mark, tint = tone.mark, size = 30.dp) {
            Text(row.title, style = MaterialTheme.typography.titleMedium)
            Text(
                listOf(
                    stringResource(look.word),
                    stringResource(if (row.knownBad) R.string.now_known_bad else R.string.now_not_known),
                    row.zoneTitle,
                ).joinToString(" · "),
                style = MaterialTheme.typography.bodyMedium,
                color = muted,
            )
        }
        Named(stringResource(R.string.now_wanted), row.wanted)
        Named(stringResource(R.string.now_seen), row.seen)
        if (open) {
            Named(stringResource(R.string.now_why), row.reason)
            Text(
                stringResource(R.string.now_source, row.source),
                style = MaterialTheme.typography.bodyMedium,
                color = muted,
            )
            row.caution?.let { Caution(it) }
        }
    }
}

@Composable
private fun Named(name: String, value: String) {
    Text(
        buildAnnotatedString {
            pushStyle(SpanStyle(fontWeight = FontWeight.SemiBold))
            append("$name: ")
            pop()
            append(value)
        },
        style = MaterialTheme.typography.bodyLarge,
    )
}

/** What the fridge runs on, and what comes next. */
@Composable
fun FridgeCard(page: FridgePage, nowUtcMs: Long, onClick: () -> Unit) {
    val look = page.source.look()
    Panel(Modifier.testTag("fridge"), onClick = onClick) {
        Marked(look.mark, size = 32.dp) {
            Text(page.title, style = MaterialTheme.typography.titleMedium)
            Text(page.headline, style = MaterialTheme.typography.bodyLarge)
            page.nextText?.let { next ->
                val left = page.nextChangeUtcMs?.let { countdown(it, nowUtcMs) }
                Text(
                    if (left == null) next else stringResource(R.string.fridge_in, left).let { "$next ($it)" },
                    style = MaterialTheme.typography.bodyMedium,
                    color = MaterialTheme.colorScheme.onSurfaceVariant,
                )
            }
        }
    }
}
