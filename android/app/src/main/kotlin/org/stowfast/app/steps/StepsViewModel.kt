package org.stowfast.app.steps

import kotlinx.coroutines.flow.update
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.Outcome
import org.stowfast.engine.VehicleEngine

class StepsViewModel(engine: VehicleEngine) :
    PageViewModel<StepsState>(engine, StepsState(rows = null, sought = "", problem = null)) {
    init {
        follow(::read)
    }

    fun onEvent(event: StepsEvent) {
        when (event) {
            StepsEvent.Shown -> wake()
            is StepsEvent.Seek -> page.update { it.copy(sought = event.words) }
            StepsEvent.Dismiss -> {
                page.update { it.copy(problem = null) }
                wake()
            }
        }
    }

    private suspend fun read() {
        when (val answer = engine.steps()) {
            is Outcome.Done -> page.update { it.copy(rows = answer.value) }
            is Outcome.Failed -> page.update { it.copy(problem = answer.problem) }
        }
    }
}
