package org.stowfast.app.preview

sealed interface PreviewEvent {
    data object Shown : PreviewEvent

    data class Pick(val variantId: String) : PreviewEvent

    data object Begin : PreviewEvent

    data object Left : PreviewEvent

    data object Dismiss : PreviewEvent
}
