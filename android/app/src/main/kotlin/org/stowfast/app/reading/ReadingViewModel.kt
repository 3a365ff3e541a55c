package org.stowfast.app.reading

import kotlinx.coroutines.flow.update
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.Outcome
import org.stowfast.engine.Problem
import org.stowfast.engine.VehicleEngine

class ReadingViewModel(engine: VehicleEngine) :
    PageViewModel<ReadingState>(engine, ReadingState(gauges = null, asked = null, open = null, problem = null)) {
    init {
        follow(::read)
    }

    fun onEvent(event: ReadingEvent) {
        when (event) {
            ReadingEvent.Shown -> wake()
            ReadingEvent.Dismiss -> {
                page.update { it.copy(problem = null) }
                wake()
            }
            is ReadingEvent.Begin -> page.update { it.copy(asked = event.gaugeId, open = event.gaugeId) }
            is ReadingEvent.Open -> page.update { it.copy(open = event.gaugeId.takeIf { id -> id != it.open }) }
            is ReadingEvent.Answer -> send({ report(event.variable, event.choiceId) }, ::failed)
            is ReadingEvent.Enter -> send({ enterReading(event.gaugeId, event.unit, event.value) }, ::failed) {
                page.update { it.copy(open = null, problem = null) }
            }
        }
    }

    private fun failed(problem: Problem) = page.update { it.copy(problem = problem) }

    private suspend fun read() {
        when (val answer = engine.gauges()) {
            is Outcome.Done -> page.update { it.copy(gauges = answer.value) }
            is Outcome.Failed -> failed(answer.problem)
        }
    }
}
