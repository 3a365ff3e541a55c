package org.stowfast.app.card

import androidx.compose.foundation.ExperimentalFoundationApi
import androidx.compose.foundation.Image
import androidx.compose.foundation.gestures.rememberTransformableState
import androidx.compose.foundation.gestures.transformable
import androidx.compose.foundation.horizontalScroll
import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.BoxWithConstraints
import androidx.compose.foundation.layout.Row
import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.foundation.layout.height
import androidx.compose.foundation.layout.heightIn
import androidx.compose.foundation.layout.width
import androidx.compose.foundation.rememberScrollState
import androidx.compose.foundation.verticalScroll
import androidx.compose.runtime.Composable
import androidx.compose.runtime.getValue
import androidx.compose.runtime.mutableFloatStateOf
import androidx.compose.runtime.saveable.rememberSaveable
import androidx.compose.runtime.setValue
import androidx.compose.ui.Modifier
import androidx.compose.ui.graphics.ImageBitmap
import androidx.compose.ui.layout.ContentScale
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.semantics.stateDescription
import androidx.compose.ui.unit.dp
import org.stowfast.app.R
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.QuietButton
import org.stowfast.app.ui.Ways

private const val LARGEST = 6f
private const val STEP = 1.5f
private const val PERCENT = 100

/** One photo, as large as one likes: by two fingers, or by the buttons. */
@OptIn(ExperimentalFoundationApi::class)
@Composable
fun PhotoPage(title: String, image: ImageBitmap, ways: Ways, onClose: () -> Unit) {
    var zoom by rememberSaveable { mutableFloatStateOf(1f) }
    fun by(factor: Float) {
        zoom = (zoom * factor).coerceIn(1f, LARGEST)
    }
    Page(title, ways.copy(back = onClose), bottom = { Sizes(::by) }) {
        item {
            val pinch = rememberTransformableState { change, _, _ -> by(change) }
            val size = stringResource(R.string.photo_size, Math.round(zoom * PERCENT))
            BoxWithConstraints(Modifier.fillMaxWidth().fillParentMaxHeight().transformable(pinch, canPan = { false })) {
                Image(
                    image,
                    title,
                    Modifier.testTag("photo-large").semantics { stateDescription = size }
                        .horizontalScroll(rememberScrollState()).verticalScroll(rememberScrollState())
                        .width(maxWidth * zoom).height(maxHeight * zoom),
                    contentScale = ContentScale.Fit,
                )
            }
        }
    }
}

@Composable
private fun Sizes(by: (Float) -> Unit) = Row(horizontalArrangement = Arrangement.spacedBy(8.dp)) {
    val button = Modifier.weight(1f).heightIn(min = 64.dp)
    QuietButton(stringResource(R.string.photo_smaller), { by(1 / STEP) }, button.testTag("photo-smaller"))
    QuietButton(stringResource(R.string.photo_larger), { by(STEP) }, button.testTag("photo-larger"))
}
