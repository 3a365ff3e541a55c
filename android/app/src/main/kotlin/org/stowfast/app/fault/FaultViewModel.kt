package org.stowfast.app.fault

import kotlinx.coroutines.flow.update
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.Changes
import org.stowfast.engine.Outcome
import org.stowfast.engine.Problem
import org.stowfast.engine.VehicleEngine

/** A search stands in the record, answer by answer: there is nothing to keep here. */
class FaultViewModel(engine: VehicleEngine, private val faultId: String) :
    PageViewModel<FaultState>(engine, FaultState(page = null, answers = 0, problem = null)) {
    init {
        follow(::read)
    }

    fun onEvent(event: FaultEvent) {
        when (event) {
            FaultEvent.Shown -> wake()
            FaultEvent.Dismiss -> {
                page.update { it.copy(problem = null) }
                wake()
            }
            is FaultEvent.Answer -> say { answerFault(faultId, event.asked, event.answer) }
            FaultEvent.Undo -> say { undoFault(faultId) }
            is FaultEvent.TakeBack -> say { unmark(event.entry) }
            FaultEvent.Again -> say { restartFault(faultId) }
        }
    }

    private fun say(call: suspend VehicleEngine.() -> Outcome<Changes>) = send(call, ::failed) {
        page.update { it.copy(answers = it.answers + 1) }
    }

    private fun failed(problem: Problem) = page.update { it.copy(problem = problem) }

    private suspend fun read() {
        when (val answer = engine.fault(faultId)) {
            is Outcome.Done -> page.update { it.copy(page = answer.value) }
            is Outcome.Failed -> failed(answer.problem)
        }
    }
}
