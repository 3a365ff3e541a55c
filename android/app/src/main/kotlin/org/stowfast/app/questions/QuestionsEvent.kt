package org.stowfast.app.questions

sealed interface QuestionsEvent {
    data object Shown : QuestionsEvent

    data object Dismiss : QuestionsEvent
}
