package org.stowfast.app.now

import android.content.Context
import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.ExperimentalLayoutApi
import androidx.compose.foundation.layout.FlowRow
import androidx.compose.foundation.layout.padding
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.runtime.getValue
import androidx.compose.runtime.mutableStateOf
import androidx.compose.runtime.saveable.rememberSaveable
import androidx.compose.runtime.setValue
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.LocalContext
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.heading
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.text.SpanStyle
import androidx.compose.ui.text.buildAnnotatedString
import androidx.compose.ui.text.font.FontWeight
import androidx.compose.ui.text.withStyle
import androidx.compose.ui.unit.dp
import org.stowfast.app.R
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Named
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.QuietButton
import org.stowfast.app.ui.countdown
import org.stowfast.app.ui.day
import org.stowfast.app.ui.look
import org.stowfast.app.ui.roles
import org.stowfast.app.ui.short
import org.stowfast.engine.EmergencyRow
import org.stowfast.engine.FridgePage
import org.stowfast.engine.ItemRow
import org.stowfast.engine.NowPage
import org.stowfast.engine.StandsRow
import org.stowfast.engine.VerdictKind

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
        val bad = stringResource(look.word) + " · " + stringResource(if (row.knownBad) R.string.now_known_bad else R.string.now_not_known)
        Text(
            buildAnnotatedString {
                withStyle(SpanStyle(tone.mark, fontWeight = FontWeight.SemiBold)) { append(bad) }
                append(" · " + row.zoneTitle)
            },
            style = MaterialTheme.typography.bodyMedium,
            color = MaterialTheme.colorScheme.onSurfaceVariant,
        )
    }
    Named(stringResource(R.string.now_wanted), row.wanted)
    Named(stringResource(R.string.now_seen), row.seen)
}

@Composable
fun Emergency(rows: List<EmergencyRow>, onEvent: (NowEvent) -> Unit) {
    val look = VerdictKind.BLOCKED.look()
    Panel(Modifier.testTag("emergency"), tone = look.tone) {
        for (row in rows) {
            val text = row.text
            Text(
                text.substringBefore(". ").removeSuffix(".") + ".",
                Modifier.semantics { heading() },
                style = MaterialTheme.typography.headlineMedium,
            )
            Text(text.substringAfter(". ", ""), style = MaterialTheme.typography.titleMedium)
            Text(row.title, style = MaterialTheme.typography.bodyMedium)
            if (row.choices.isNotEmpty()) Word(row, onEvent)
        }
    }
}

/** Only somebody's word ends it, and never a stray tap: the choices open first. */
@OptIn(ExperimentalLayoutApi::class)
@Composable
private fun Word(row: EmergencyRow, onEvent: (NowEvent) -> Unit) {
    var open by rememberSaveable(row.variable) { mutableStateOf(false) }
    if (!open) return QuietButton(stringResource(R.string.now_say), { open = true }, Modifier.testTag("say"))
    FlowRow(horizontalArrangement = Arrangement.spacedBy(8.dp), verticalArrangement = Arrangement.spacedBy(8.dp)) {
        for (choice in row.choices) {
            QuietButton(choice.text, { onEvent(NowEvent.Say(row.variable, choice.id)) }, Modifier.testTag("say-" + choice.id))
        }
    }
}

/** What the list says, and what that rests on. */
@Composable
fun Verdict(page: NowPage) {
    val look = page.look()
    Panel(Modifier.testTag("verdict"), tone = look.tone) {
        Marked(look.mark, Modifier.padding(vertical = if (short()) 0.dp else 4.dp), tint = look.tone.mark, size = 56.dp, gap = 16.dp) {
            Text(
                page.headline,
                Modifier.semantics { heading() },
                style = MaterialTheme.typography.headlineMedium,
            )
        }
        if (page.detail.isNotEmpty()) Text(page.detail, style = MaterialTheme.typography.titleMedium)
        page.oldestLook()?.let {
            Marked(R.drawable.ic_look, tint = look.tone.mark, size = 20.dp) {
                Text(stringResource(R.string.now_oldest_look, it), style = MaterialTheme.typography.bodyMedium)
            }
        }
        if (page.clockChanged) ClockChanged()
    }
}

/** How old the oldest look is, where the words of the verdict do not say it. */
fun NowPage.oldestLook(): String? = oldestLookText?.takeIf { verdict != VerdictKind.CLEAR }

/** The same in a line, where something else comes first. */
@Composable
fun LesserVerdict(page: NowPage) {
    val look = page.look()
    Panel(Modifier.testTag("verdict")) {
        Marked(look.mark, tint = look.tone.mark, size = 28.dp) { Text(page.headline, style = MaterialTheme.typography.titleMedium) }
        if (page.clockChanged) ClockChanged()
    }
}

@Composable
private fun ClockChanged() = Marked(R.drawable.ic_clock, tint = roles.unknown.mark, size = 20.dp) {
    Text(stringResource(R.string.now_clock_changed), style = MaterialTheme.typography.bodyMedium)
}

/** What a routine left the vehicle in, such as laid up for winter; calm where all of it was done. */
@Composable
fun Stands(row: StandsRow) {
    val tone = if (row.finished) roles.quiet else roles.unknown
    Panel(Modifier.testTag("stands"), tone = tone) {
        Marked(R.drawable.ic_winter, tint = tone.mark, size = 40.dp) {
            Text(row.headline, Modifier.semantics { heading() }, style = MaterialTheme.typography.headlineSmall)
            row.since(LocalContext.current)?.let { Text(it, style = MaterialTheme.typography.bodyMedium) }
        }
    }
}

/** Since when, as the phone writes a date. */
fun StandsRow.since(context: Context): String? =
    sinceUtcMs?.let { context.getString(if (finished) R.string.now_since else R.string.now_begun, context.day(it)) }

/** What the fridge runs on, and what comes next. */
@Composable
fun FridgeCard(page: FridgePage, nowUtcMs: Long, onClick: () -> Unit) {
    val look = page.source.look()
    Panel(Modifier.testTag("fridge-now"), onClick = onClick, end = R.drawable.ic_forward) {
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
