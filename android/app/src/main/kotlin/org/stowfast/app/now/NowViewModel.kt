package org.stowfast.app.now

import kotlinx.coroutines.flow.update
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.Outcome
import org.stowfast.engine.Problem
import org.stowfast.engine.VehicleEngine

class NowViewModel(engine: VehicleEngine) :
    PageViewModel<NowState>(
        engine,
        NowState(
            page = null,
            vehicleMissing = false,
            targets = emptyList(),
            choosing = false,
            nowUtcMs = engine.utcMs(),
            running = false,
            problem = null,
        ),
    ) {
    init {
        follow(::read)
    }

    fun onEvent(event: NowEvent) {
        when (event) {
            NowEvent.Shown -> wake()
            NowEvent.Left -> page.update { it.copy(running = false) }
            NowEvent.Choose -> page.update { it.copy(choosing = true) }
            NowEvent.ChooseNothing -> page.update { it.copy(choosing = false) }
            NowEvent.Dismiss -> {
                page.update { it.copy(problem = null) }
                wake()
            }
            NowEvent.Resume -> send({ resume() }, ::failed) { running() }
            is NowEvent.Open -> send({ openRun(event.targetId) }, ::failed) { running() }
        }
    }

    private fun running() = page.update { it.copy(running = true, choosing = false) }

    private fun failed(problem: Problem) = page.update { it.copy(problem = problem, choosing = false) }

    private suspend fun read() {
        val vehicles = when (val answer = engine.vehicles()) {
            is Outcome.Done -> answer.value
            is Outcome.Failed -> return failed(answer.problem)
        }
        if (vehicles.none { it.current }) {
            page.update { it.copy(page = null, vehicleMissing = true) }
            return
        }
        when (val answer = engine.targets()) {
            is Outcome.Done -> page.update { it.copy(targets = answer.value) }
            is Outcome.Failed -> return failed(answer.problem)
        }
        when (val answer = engine.nowPage()) {
            is Outcome.Done -> page.update {
                it.copy(page = answer.value, vehicleMissing = false, nowUtcMs = engine.utcMs())
            }
            is Outcome.Failed -> failed(answer.problem)
        }
    }
}
