package org.stowfast.app.routine

import androidx.lifecycle.viewModelScope
import kotlinx.coroutines.flow.update
import kotlinx.coroutines.launch
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.Outcome
import org.stowfast.engine.Problem
import org.stowfast.engine.VehicleEngine

/** Keeps nothing of its own: the engine holds the routine, so it survives the process. */
class RoutineViewModel(engine: VehicleEngine) :
    PageViewModel<RoutineState>(
        engine,
        RoutineState(page = null, answered = false, noted = null, closed = false, problem = null),
    ) {
    init {
        follow(::read)
    }

    fun onEvent(event: RoutineEvent) {
        when (event) {
            RoutineEvent.Shown -> wake()
            RoutineEvent.Left -> page.update { it.copy(closed = false) }
            RoutineEvent.Dismiss -> {
                page.update { it.copy(problem = null) }
                wake()
            }
            is RoutineEvent.Confirm -> send({ tick(event.stepId) }, ::failed)
            is RoutineEvent.See -> send({ look(event.stepId, event.choiceId) }, ::failed)
            is RoutineEvent.Cannot -> send({ cannot(event.stepId, event.note) }, ::failed)
            is RoutineEvent.Leave -> send({ leftAnyway(event.stepId, event.note) }, ::failed)
            is RoutineEvent.Note -> send({ note(event.text) }, ::failed) { noted(it.entries.last()) }
            is RoutineEvent.Undo -> send({ unmark(event.entry) }, ::failed) { forget(event.entry) }
            is RoutineEvent.Unstick -> send({ clearStuck(event.entry) }, ::failed)
            RoutineEvent.Pause -> send({ pause() }, ::failed)
            RoutineEvent.Resume -> send({ resume() }, ::failed)
            RoutineEvent.Close -> send({ closeRun() }, ::failed) { page.update { it.copy(closed = true) } }
        }
    }

    private fun noted(entry: Long) {
        viewModelScope.launch {
            val newest = (engine.log(1) as? Outcome.Done)?.value.orEmpty()
            page.update { it.copy(noted = newest.find { row -> row.entry == entry }) }
        }
    }

    private fun forget(entry: Long) = page.update { it.copy(noted = it.noted?.takeIf { note -> note.entry != entry }) }

    private fun failed(problem: Problem) = page.update { it.copy(problem = problem) }

    private suspend fun read() {
        when (val answer = engine.routine()) {
            is Outcome.Done -> page.update { it.copy(page = answer.value, answered = true) }
            is Outcome.Failed -> failed(answer.problem)
        }
    }
}
