package org.stowfast.app.cards

import androidx.lifecycle.SavedStateHandle
import androidx.lifecycle.viewModelScope
import kotlinx.coroutines.flow.collectLatest
import kotlinx.coroutines.flow.update
import kotlinx.coroutines.launch
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.Outcome
import org.stowfast.engine.VehicleEngine
import java.text.Collator

/** What is asked is kept here alone. Asking for nothing, as the page does when it opens, has the engine read all there is. */
class CardsViewModel(engine: VehicleEngine, private val kept: SavedStateHandle) :
    PageViewModel<CardsState>(engine, CardsState(rows = null, asked = kept[ASKED] ?: "", found = null, problem = null)) {
    init {
        follow(::read)
        viewModelScope.launch { kept.getStateFlow(ASKED, "").collectLatest(::find) }
    }

    fun onEvent(event: CardsEvent) {
        when (event) {
            CardsEvent.Shown -> wake()
            is CardsEvent.Seek -> seek(event.words.take(ASKED_CHARS))
            CardsEvent.Dismiss -> {
                page.update { it.copy(problem = null) }
                wake()
            }
        }
    }

    private fun seek(words: String) {
        page.update { it.copy(asked = words, found = it.found.takeIf { words.isNotBlank() }) }
        kept[ASKED] = words
    }

    private suspend fun read() {
        when (val answer = engine.cards()) {
            is Outcome.Done -> page.update { it.copy(rows = answer.value.sortedWith(compareBy(Collator.getInstance()) { row -> row.title })) }
            is Outcome.Failed -> page.update { it.copy(problem = answer.problem) }
        }
        find(page.value.asked)
    }

    /** An answer to what is no longer asked comes too late. */
    private suspend fun find(asked: String) {
        val answer = engine.find(asked)
        page.update {
            when {
                it.asked != asked -> it
                answer is Outcome.Failed -> it.copy(problem = answer.problem)
                answer is Outcome.Done && asked.isNotBlank() -> it.copy(found = answer.value)
                else -> it.copy(found = null)
            }
        }
    }

    private companion object {
        const val ASKED = "asked"

        /** More than anybody types; of what is pasted the rest is left out, for what is kept of a page must be small. */
        const val ASKED_CHARS = 1_000
    }
}
