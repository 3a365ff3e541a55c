package org.stowfast.app.routine

import androidx.lifecycle.SavedStateHandle
import androidx.lifecycle.viewModelScope
import kotlinx.coroutines.flow.update
import kotlinx.coroutines.launch
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.Line
import org.stowfast.engine.Odd
import org.stowfast.engine.OddCannot
import org.stowfast.engine.OddSeen
import org.stowfast.engine.Outcome
import org.stowfast.engine.Problem
import org.stowfast.engine.VehicleEngine

/** The engine holds the routine, so it survives the process; [kept] holds what is marked and not yet confirmed. */
class RoutineViewModel(engine: VehicleEngine, private val kept: SavedStateHandle) :
    PageViewModel<RoutineState>(
        engine,
        RoutineState(page = null, answered = false, odd = kept.marks(), confirmed = emptyList(), noted = null, closed = false, problem = null),
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
            is RoutineEvent.Confirm -> confirm(event.steps)
            is RoutineEvent.Mark -> mark(page.value.odd - event.stepId + listOfNotNull(event.odd?.let { event.stepId to it }))
            is RoutineEvent.See -> send({ look(event.stepId, event.choiceId) }, ::failed)
            is RoutineEvent.Cannot -> send({ cannot(event.stepId, event.note) }, ::failed)
            is RoutineEvent.Leave -> send({ leftAnyway(event.stepId, event.note) }, ::failed)
            is RoutineEvent.Note -> send({ note(event.text) }, ::failed) { noted(it.entries.last()) }
            is RoutineEvent.Undo -> undo(event.entry)
            is RoutineEvent.Unstick -> send({ clearStuck(event.entry) }, ::failed)
            RoutineEvent.Pause -> send({ pause() }, ::failed)
            RoutineEvent.Resume -> send({ resume() }, ::failed)
            RoutineEvent.Close -> send({ closeRun() }, ::failed) { page.update { it.copy(closed = true) } }
        }
    }

    private fun confirm(steps: List<String>) {
        val lines = steps.map { Line(it, page.value.odd[it]) }
        send({ confirm(lines) }, ::failed) { changes ->
            mark(page.value.odd - steps.toSet())
            page.update { it.copy(confirmed = changes.entries) }
        }
    }

    /** A gesture is taken back as a whole. */
    private fun undo(entry: Long) {
        val list = page.value.gestureOf(entry)
        send({ takeBack(list) }, ::failed) { forget(entry) }
    }

    private fun mark(odd: Map<String, Odd>) {
        kept.keep(odd)
        page.update { it.copy(odd = odd) }
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

private const val SEEN = "seen"
private const val CANNOT = "cannot"

/** Two lists of words go through the death of a process: of each step what it showed, and why it cannot be done. */
private fun SavedStateHandle.keep(odd: Map<String, Odd>) {
    this[SEEN] = HashMap(odd.mapNotNull { (step, found) -> (found as? OddSeen)?.let { step to it.v1 } }.toMap())
    this[CANNOT] = HashMap(odd.mapNotNull { (step, found) -> (found as? OddCannot)?.let { step to it.v1 } }.toMap())
}

private fun SavedStateHandle.marks(): Map<String, Odd> =
    get<HashMap<String, String>>(SEEN).orEmpty().mapValues { OddSeen(it.value) } +
        get<HashMap<String, String>>(CANNOT).orEmpty().mapValues { OddCannot(it.value) }
