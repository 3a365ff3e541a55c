package org.stowfast.app.card

import androidx.compose.ui.graphics.ImageBitmap
import org.stowfast.engine.CardPage
import org.stowfast.engine.Problem

/**
 * [page] is null until the engine has answered. [picture] is that of its photo: null where there is none, or while it is read.
 * [enlarged] is true while it has the page, [removing] while it is asked whether it is to go, [unreadable] where what was
 * chosen is no picture that the phone can read.
 */
data class CardState(
    val page: CardPage?,
    val picture: Picture?,
    val enlarged: Boolean,
    val removing: Boolean,
    val unreadable: Boolean,
    val problem: Problem?,
)

/** A photo as the phone can draw it, or cannot. */
sealed interface Picture {
    data class Drawn(val image: ImageBitmap) : Picture

    data object Broken : Picture
}
