package org.stowfast.app.cards

import androidx.annotation.DrawableRes
import androidx.annotation.StringRes
import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.foundation.layout.size
import androidx.compose.foundation.text.KeyboardActions
import androidx.compose.foundation.text.KeyboardOptions
import androidx.compose.material3.Icon
import androidx.compose.material3.IconButton
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.OutlinedTextField
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.LocalSoftwareKeyboardController
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.painterResource
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.LiveRegionMode
import androidx.compose.ui.semantics.liveRegion
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.text.input.ImeAction
import androidx.compose.ui.unit.dp
import org.stowfast.app.R
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.grown
import org.stowfast.app.ui.roles
import org.stowfast.engine.HitKind
import org.stowfast.engine.HitRow

/** The field for an owner's own words. Answers come with each letter; the keyboard's key only makes room for them. */
@Composable
internal fun Seek(asked: String, onSeek: (String) -> Unit) {
    val keyboard = LocalSoftwareKeyboardController.current
    OutlinedTextField(
        asked,
        onSeek,
        Modifier.fillMaxWidth().testTag("seek"),
        textStyle = MaterialTheme.typography.bodyLarge,
        label = { Text(stringResource(R.string.cards_seek)) },
        leadingIcon = { Icon(painterResource(R.drawable.ic_search), null, Modifier.size(grown(24.dp))) },
        trailingIcon = if (asked.isEmpty()) null else ({ Clear { onSeek("") } }),
        keyboardOptions = KeyboardOptions(imeAction = ImeAction.Search),
        keyboardActions = KeyboardActions(onSearch = { keyboard?.hide() }),
        singleLine = true,
    )
}

@Composable
private fun Clear(onClick: () -> Unit) {
    IconButton(onClick, Modifier.testTag("clear")) {
        Icon(painterResource(R.drawable.ic_clear), stringResource(R.string.cards_clear), Modifier.size(grown(24.dp)))
    }
}

/** What to try where nothing was found. */
@Composable
internal fun Nothing() {
    Panel(Modifier.testTag("nothing").semantics { liveRegion = LiveRegionMode.Polite }) {
        Text(stringResource(R.string.cards_nothing), style = MaterialTheme.typography.titleMedium)
        Text(stringResource(R.string.cards_try), style = MaterialTheme.typography.bodyLarge)
    }
}

/** A page that was found: its sort as a mark and in words. An alarm of life leads past its page to what to do at once. */
@Composable
internal fun Hit(row: HitRow, on: CardsWays, emergency: (() -> Unit)?) {
    val urgent = emergency?.takeIf { row.emergency }
    val tone = roles.blocked.takeIf { urgent != null }
    val name = if (row.kind == HitKind.QUESTION) "question-" + row.id else row.id
    Panel(Modifier.testTag("hit-$name"), tone, onClick = urgent ?: { on.open(row) }, end = R.drawable.ic_forward) {
        Marked(if (urgent != null) R.drawable.ic_danger else row.kind.mark(), tint = (tone ?: roles.quiet).mark, size = 28.dp) {
            Text(row.title, style = MaterialTheme.typography.titleMedium)
            Text(row.sort(), style = MaterialTheme.typography.bodyMedium)
            if (urgent != null) Text(stringResource(R.string.hit_emergency), style = MaterialTheme.typography.bodyLarge)
            if (row.line.isNotEmpty()) Text(row.line, style = MaterialTheme.typography.bodyLarge)
        }
    }
}

private fun CardsWays.open(row: HitRow) = when (row.kind) {
    HitKind.CARD -> card(row.id)
    HitKind.ALERT -> alert(row.id)
    HitKind.FAULT -> fault(row.id)
    HitKind.ROUTINE -> preview(row.id)
    HitKind.QUESTION -> question(row.id)
    HitKind.EMERGENCY -> Unit
}

/** What sort of page it is, and where or how. */
@Composable
private fun HitRow.sort(): String {
    val sort = stringResource(kind.word())
    return if (about.isEmpty()) sort else stringResource(R.string.red_where, sort, about)
}

@StringRes
fun HitKind.word(): Int = when (this) {
    HitKind.CARD -> R.string.hit_card
    HitKind.ALERT -> R.string.hit_alert
    HitKind.FAULT -> R.string.hit_fault
    HitKind.ROUTINE -> R.string.hit_routine
    HitKind.QUESTION -> R.string.reckon_heading
    HitKind.EMERGENCY -> R.string.emergency
}

@DrawableRes
private fun HitKind.mark(): Int = when (this) {
    HitKind.CARD -> R.drawable.ic_card
    HitKind.ALERT -> R.drawable.ic_red
    HitKind.FAULT -> R.drawable.ic_fault
    HitKind.ROUTINE -> R.drawable.ic_route
    HitKind.QUESTION -> R.drawable.ic_question
    HitKind.EMERGENCY -> R.drawable.ic_danger
}
