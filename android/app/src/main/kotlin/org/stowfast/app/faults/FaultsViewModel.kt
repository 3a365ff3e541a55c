package org.stowfast.app.faults

import kotlinx.coroutines.flow.update
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.Outcome
import org.stowfast.engine.VehicleEngine

class FaultsViewModel(engine: VehicleEngine) : PageViewModel<FaultsState>(engine, FaultsState(rows = null, problem = null)) {
    init {
        follow(::read)
    }

    fun onEvent(event: FaultsEvent) {
        if (event == FaultsEvent.Dismiss) page.update { it.copy(problem = null) }
        wake()
    }

    private suspend fun read() {
        when (val answer = engine.faults()) {
            is Outcome.Done -> page.update { it.copy(rows = answer.value) }
            is Outcome.Failed -> page.update { it.copy(problem = answer.problem) }
        }
    }
}
