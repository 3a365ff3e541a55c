package org.stowfast.app.things

import kotlinx.coroutines.flow.update
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.Outcome
import org.stowfast.engine.Problem
import org.stowfast.engine.VehicleEngine

class ThingsViewModel(engine: VehicleEngine) :
    PageViewModel<ThingsState>(engine, ThingsState(rows = null, open = null, problem = null)) {
    init {
        follow(::read)
    }

    fun onEvent(event: ThingsEvent) {
        when (event) {
            ThingsEvent.Shown -> wake()
            ThingsEvent.Dismiss -> {
                page.update { it.copy(problem = null) }
                wake()
            }
            is ThingsEvent.Open -> page.update { it.copy(open = event.variable.takeIf { name -> name != it.open }) }
            is ThingsEvent.Report -> send({ report(event.variable, event.setting) }, ::failed) {
                page.update { it.copy(open = null) }
            }
        }
    }

    private fun failed(problem: Problem) = page.update { it.copy(problem = problem) }

    private suspend fun read() {
        when (val answer = engine.things()) {
            is Outcome.Done -> page.update { it.copy(rows = answer.value) }
            is Outcome.Failed -> failed(answer.problem)
        }
    }
}
