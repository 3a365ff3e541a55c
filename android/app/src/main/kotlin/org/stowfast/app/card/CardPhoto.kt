package org.stowfast.app.card

import androidx.compose.foundation.Image
import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.ExperimentalLayoutApi
import androidx.compose.foundation.layout.FlowRow
import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.foundation.layout.heightIn
import androidx.compose.foundation.layout.padding
import androidx.compose.foundation.shape.RoundedCornerShape
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Surface
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.ui.Modifier
import androidx.compose.ui.layout.ContentScale
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.Role
import androidx.compose.ui.semantics.LiveRegionMode
import androidx.compose.ui.semantics.heading
import androidx.compose.ui.semantics.liveRegion
import androidx.compose.ui.semantics.onClick
import androidx.compose.ui.semantics.role
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.unit.dp
import org.stowfast.app.R
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.QuietButton
import org.stowfast.app.ui.roles
import org.stowfast.engine.CardPhoto

/** Where a fitting is, as a picture; a tap enlarges it. It can be chosen, replaced and, once asked, removed. */
@Composable
fun Photo(photo: CardPhoto?, state: CardState, onChoose: () -> Unit, onEvent: (CardEvent) -> Unit) {
    val picture = state.picture
    Panel(Modifier.testTag("photo")) {
        Marked(R.drawable.ic_photo) {
            Text(stringResource(R.string.card_photo), Modifier.semantics { heading() }, style = MaterialTheme.typography.titleMedium)
            Text(photo?.byText ?: stringResource(R.string.card_photo_none), style = MaterialTheme.typography.bodyMedium)
        }
        if (photo != null && picture is Picture.Drawn) Thumb(photo, picture) { onEvent(CardEvent.Enlarge) }
        if (picture == Picture.Broken) Unfit(R.string.card_photo_broken, "photo-broken")
        if (state.unreadable) Unfit(R.string.card_photo_unreadable, "photo-unreadable")
        if (state.removing) Remove(onEvent) else Change(photo != null, onChoose) { onEvent(CardEvent.AskToRemove) }
    }
}

@Composable
private fun Thumb(photo: CardPhoto, picture: Picture.Drawn, onEnlarge: () -> Unit) {
    val enlarge = stringResource(R.string.card_photo_enlarge)
    Surface(
        onEnlarge,
        Modifier.testTag("photo-enlarge").semantics {
            role = Role.Button
            onClick(enlarge, null)
        },
        shape = RoundedCornerShape(12.dp),
        color = MaterialTheme.colorScheme.surface,
    ) {
        Image(picture.image, photo.title, Modifier.fillMaxWidth().heightIn(min = 48.dp, max = 280.dp), contentScale = ContentScale.Fit)
    }
}

@Composable
private fun Unfit(text: Int, tag: String) = Marked(R.drawable.mark_unknown, Modifier.testTag(tag).semantics { liveRegion = LiveRegionMode.Polite }, tint = roles.unknown.mark) {
    Text(stringResource(text), style = MaterialTheme.typography.bodyLarge)
}

@OptIn(ExperimentalLayoutApi::class)
@Composable
private fun Change(there: Boolean, onChoose: () -> Unit, onRemove: () -> Unit) =
    FlowRow(horizontalArrangement = Arrangement.spacedBy(8.dp), verticalArrangement = Arrangement.spacedBy(8.dp)) {
        val choose = if (there) R.string.card_photo_replace else R.string.card_photo_choose
        QuietButton(stringResource(choose), onChoose, Modifier.testTag("photo-choose"))
        if (there) QuietButton(stringResource(R.string.card_photo_remove), onRemove, Modifier.testTag("photo-remove"))
    }

@OptIn(ExperimentalLayoutApi::class)
@Composable
private fun Remove(onEvent: (CardEvent) -> Unit) {
    Text(
        stringResource(R.string.card_photo_sure),
        Modifier.padding(top = 4.dp).semantics { liveRegion = LiveRegionMode.Polite },
        style = MaterialTheme.typography.bodyLarge,
    )
    FlowRow(horizontalArrangement = Arrangement.spacedBy(8.dp), verticalArrangement = Arrangement.spacedBy(8.dp)) {
        QuietButton(stringResource(R.string.card_photo_keep), { onEvent(CardEvent.Keep) }, Modifier.testTag("photo-keep"))
        QuietButton(stringResource(R.string.card_photo_remove_sure), { onEvent(CardEvent.Remove) }, Modifier.testTag("photo-remove-sure"))
    }
}
