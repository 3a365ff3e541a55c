package org.stowfast.app.may

import kotlinx.coroutines.flow.update
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.Outcome
import org.stowfast.engine.VehicleEngine

class MayViewModel(engine: VehicleEngine, private val stepId: String) :
    PageViewModel<MayState>(engine, MayState(page = null, problem = null)) {
    init {
        follow(::read)
    }

    fun onEvent(event: MayEvent) {
        if (event == MayEvent.Dismiss) page.update { it.copy(problem = null) }
        wake()
    }

    private suspend fun read() {
        when (val answer = engine.may(stepId)) {
            is Outcome.Done -> page.update { it.copy(page = answer.value) }
            is Outcome.Failed -> page.update { it.copy(problem = answer.problem) }
        }
    }
}
