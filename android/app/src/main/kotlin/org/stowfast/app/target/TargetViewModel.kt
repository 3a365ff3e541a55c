package org.stowfast.app.target

import kotlinx.coroutines.flow.update
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.Outcome
import org.stowfast.engine.VehicleEngine

class TargetViewModel(engine: VehicleEngine) :
    PageViewModel<TargetState>(engine, TargetState(targets = null, open = null, ticked = emptySet(), problem = null)) {
    init {
        follow(::read)
    }

    fun onEvent(event: TargetEvent) {
        when (event) {
            TargetEvent.Shown -> wake()
            TargetEvent.Dismiss -> {
                page.update { it.copy(problem = null) }
                wake()
            }
            is TargetEvent.Open -> page.update {
                it.copy(open = event.targetId.takeIf { id -> id != it.open }, ticked = emptySet())
            }
            is TargetEvent.Tick -> page.update {
                it.copy(ticked = if (event.partId in it.ticked) it.ticked - event.partId else it.ticked + event.partId)
            }
        }
    }

    private suspend fun read() {
        when (val answer = engine.targets()) {
            is Outcome.Done -> page.update { it.copy(targets = answer.value) }
            is Outcome.Failed -> page.update { it.copy(problem = answer.problem) }
        }
    }
}
