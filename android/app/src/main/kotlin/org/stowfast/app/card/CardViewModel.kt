package org.stowfast.app.card

import kotlinx.coroutines.flow.update
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.Outcome
import org.stowfast.engine.VehicleEngine

class CardViewModel(engine: VehicleEngine, private val fittingId: String) :
    PageViewModel<CardState>(engine, CardState(page = null, problem = null)) {
    init {
        follow(::read)
    }

    fun onEvent(event: CardEvent) {
        if (event == CardEvent.Dismiss) page.update { it.copy(problem = null) }
        wake()
    }

    private suspend fun read() {
        when (val answer = engine.card(fittingId)) {
            is Outcome.Done -> page.update { it.copy(page = answer.value) }
            is Outcome.Failed -> page.update { it.copy(problem = answer.problem) }
        }
    }
}
