package org.stowfast.app.reading

import androidx.lifecycle.SavedStateHandle
import kotlinx.coroutines.flow.update
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.Outcome
import org.stowfast.engine.Problem
import org.stowfast.engine.VehicleEngine

/** [kept] holds which gauge was asked for, and which is open. */
class ReadingViewModel(engine: VehicleEngine, private val kept: SavedStateHandle) :
    PageViewModel<ReadingState>(engine, ReadingState(gauges = null, asked = kept[ASKED], open = kept[OPEN], problem = null)) {
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
            is ReadingEvent.Begin -> open(event.gaugeId, asked = event.gaugeId)
            is ReadingEvent.Open -> open(event.gaugeId.takeIf { it != page.value.open }, page.value.asked)
            is ReadingEvent.Answer -> send({ report(event.variable, event.choiceId) }, ::failed)
            is ReadingEvent.Enter -> send({ enterReading(event.gaugeId, event.unit, event.value) }, ::failed) {
                open(null, page.value.asked)
                page.update { it.copy(problem = null) }
            }
        }
    }

    private fun open(gauge: String?, asked: String?) {
        kept[OPEN] = gauge
        kept[ASKED] = asked
        page.update { it.copy(open = gauge, asked = asked) }
    }

    private fun failed(problem: Problem) = page.update { it.copy(problem = problem) }

    private suspend fun read() {
        when (val answer = engine.gauges()) {
            is Outcome.Done -> page.update { it.copy(gauges = answer.value) }
            is Outcome.Failed -> failed(answer.problem)
        }
    }
}

private const val OPEN = "open"
private const val ASKED = "asked"
