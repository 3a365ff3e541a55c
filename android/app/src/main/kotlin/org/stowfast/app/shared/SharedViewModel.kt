package org.stowfast.app.shared

import androidx.lifecycle.SavedStateHandle
import kotlinx.coroutines.flow.update
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.Outcome
import org.stowfast.engine.VehicleEngine

/** A view only: the routine under way stays with one phone. [kept] holds whose list is on show. */
class SharedViewModel(engine: VehicleEngine, private val aim: String, private val kept: SavedStateHandle) :
    PageViewModel<SharedState>(engine, SharedState(page = null, who = kept[WHO] ?: 0, problem = null)) {
    init {
        follow(::read)
    }

    fun onEvent(event: SharedEvent) {
        when (event) {
            SharedEvent.Shown -> wake()
            is SharedEvent.Show -> {
                kept[WHO] = event.who
                page.update { it.copy(who = event.who) }
            }
            SharedEvent.Dismiss -> {
                page.update { it.copy(problem = null) }
                wake()
            }
        }
    }

    private suspend fun read() {
        when (val answer = engine.shared(aim)) {
            is Outcome.Done -> page.update { it.copy(page = answer.value) }
            is Outcome.Failed -> page.update { it.copy(problem = answer.problem) }
        }
    }
}

private const val WHO = "who"
