package org.stowfast.app.reserve

import kotlinx.coroutines.flow.update
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.Outcome
import org.stowfast.engine.VehicleEngine

class ReserveViewModel(engine: VehicleEngine) :
    PageViewModel<ReserveState>(engine, ReserveState(page = null, problem = null)) {
    init {
        follow(::read)
    }

    fun onEvent(event: ReserveEvent) {
        if (event == ReserveEvent.Dismiss) page.update { it.copy(problem = null) }
        wake()
    }

    private suspend fun read() {
        when (val answer = engine.reserves()) {
            is Outcome.Done -> page.update { it.copy(page = answer.value) }
            is Outcome.Failed -> page.update { it.copy(problem = answer.problem) }
        }
    }
}
