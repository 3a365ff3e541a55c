package org.stowfast.app.questions

import kotlinx.coroutines.flow.update
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.Outcome
import org.stowfast.engine.VehicleEngine

class QuestionsViewModel(engine: VehicleEngine) : PageViewModel<QuestionsState>(engine, QuestionsState(rows = null, problem = null)) {
    init {
        follow(::read)
    }

    fun onEvent(event: QuestionsEvent) {
        if (event == QuestionsEvent.Dismiss) page.update { it.copy(problem = null) }
        wake()
    }

    private suspend fun read() {
        when (val answer = engine.reckonings()) {
            is Outcome.Done -> page.update { it.copy(rows = answer.value) }
            is Outcome.Failed -> page.update { it.copy(problem = answer.problem) }
        }
    }
}
