package org.stowfast.app.record

import kotlinx.coroutines.flow.update
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.Outcome
import org.stowfast.engine.Problem
import org.stowfast.engine.VehicleEngine

/** More lines than anyone scrolls through. */
private const val LINES_MAX = 200

class RecordViewModel(engine: VehicleEngine) :
    PageViewModel<RecordState>(engine, RecordState(rows = null, open = null, problem = null)) {
    init {
        follow(::read)
    }

    fun onEvent(event: RecordEvent) {
        when (event) {
            RecordEvent.Shown -> wake()
            RecordEvent.Dismiss -> {
                page.update { it.copy(problem = null) }
                wake()
            }
            is RecordEvent.Open -> page.update { it.copy(open = event.entry.takeIf { entry -> entry != it.open }) }
            is RecordEvent.TakeBack -> send({ unmark(event.entry) }, ::failed) { page.update { it.copy(open = null) } }
            is RecordEvent.Note -> send({ note(event.text) }, ::failed)
        }
    }

    private fun failed(problem: Problem) = page.update { it.copy(problem = problem) }

    private suspend fun read() {
        when (val answer = engine.log(LINES_MAX)) {
            is Outcome.Done -> page.update { it.copy(rows = answer.value) }
            is Outcome.Failed -> failed(answer.problem)
        }
    }
}
