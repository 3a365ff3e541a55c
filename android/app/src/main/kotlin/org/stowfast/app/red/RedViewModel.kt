package org.stowfast.app.red

import kotlinx.coroutines.flow.update
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.Outcome
import org.stowfast.engine.VehicleEngine

class RedViewModel(engine: VehicleEngine) : PageViewModel<RedState>(engine, RedState(rows = null, problem = null)) {
    init {
        follow(::read)
    }

    fun onEvent(event: RedEvent) {
        if (event == RedEvent.Dismiss) page.update { it.copy(problem = null) }
        wake()
    }

    private suspend fun read() {
        when (val answer = engine.alerts()) {
            is Outcome.Done -> page.update { it.copy(rows = answer.value) }
            is Outcome.Failed -> page.update { it.copy(problem = answer.problem) }
        }
    }
}
