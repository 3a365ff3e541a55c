package org.stowfast.app.record

import kotlinx.coroutines.flow.update
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.Outcome
import org.stowfast.engine.Problem
import org.stowfast.engine.VehicleEngine

/** How many entries are read at once; older ones on demand. */
private const val LINES = 200

class RecordViewModel(engine: VehicleEngine) :
    PageViewModel<RecordState>(engine, RecordState(rows = null, more = false, open = null, problem = null)) {
    private var limit = LINES

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
            RecordEvent.Older -> {
                limit += LINES
                wake()
            }
            is RecordEvent.Open -> page.update { it.copy(open = event.entry.takeIf { entry -> entry != it.open }) }
            is RecordEvent.TakeBack -> send({ unmark(event.entry) }, ::failed) { page.update { it.copy(open = null) } }
            is RecordEvent.Note -> send({ note(event.text) }, ::failed)
        }
    }

    private fun failed(problem: Problem) = page.update { it.copy(problem = problem) }

    private suspend fun read() {
        when (val answer = engine.log(limit)) {
            is Outcome.Done -> page.update { it.copy(rows = answer.value, more = answer.value.size == limit) }
            is Outcome.Failed -> failed(answer.problem)
        }
    }
}
