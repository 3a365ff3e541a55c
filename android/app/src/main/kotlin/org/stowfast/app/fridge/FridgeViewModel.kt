package org.stowfast.app.fridge

import kotlinx.coroutines.flow.update
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.Outcome
import org.stowfast.engine.Problem
import org.stowfast.engine.VehicleEngine

class FridgeViewModel(engine: VehicleEngine) :
    PageViewModel<FridgeState>(
        engine,
        FridgeState(page = null, answered = false, nowUtcMs = engine.utcMs(), problem = null),
    ) {
    init {
        follow(::read)
    }

    fun onEvent(event: FridgeEvent) {
        when (event) {
            FridgeEvent.Shown -> wake()
            FridgeEvent.Tick -> tick()
            FridgeEvent.Dismiss -> {
                page.update { it.copy(problem = null) }
                wake()
            }
            is FridgeEvent.Set -> send({ setFridge(event.selector) }, ::failed)
        }
    }

    /** Moves the countdown on. When it has run out, the engine is asked what holds now. */
    private fun tick() {
        val before = page.value
        val nowUtcMs = engine.utcMs()
        page.update { it.copy(nowUtcMs = nowUtcMs) }
        val deadline = before.page?.nextChangeUtcMs ?: return
        if (deadline in before.nowUtcMs..nowUtcMs) wake()
    }

    private fun failed(problem: Problem) = page.update { it.copy(problem = problem) }

    private suspend fun read() {
        when (val answer = engine.fridge()) {
            is Outcome.Done -> page.update {
                it.copy(page = answer.value, answered = true, nowUtcMs = engine.utcMs())
            }
            is Outcome.Failed -> failed(answer.problem)
        }
    }
}
