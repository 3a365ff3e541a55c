package org.stowfast.app.cards

import kotlinx.coroutines.flow.update
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.Outcome
import org.stowfast.engine.VehicleEngine
import java.text.Collator

class CardsViewModel(engine: VehicleEngine) : PageViewModel<CardsState>(engine, CardsState(rows = null, problem = null)) {
    init {
        follow(::read)
    }

    fun onEvent(event: CardsEvent) {
        if (event == CardsEvent.Dismiss) page.update { it.copy(problem = null) }
        wake()
    }

    private suspend fun read() {
        when (val answer = engine.cards()) {
            is Outcome.Done -> page.update { it.copy(rows = answer.value.sortedWith(compareBy(Collator.getInstance()) { row -> row.title })) }
            is Outcome.Failed -> page.update { it.copy(problem = answer.problem) }
        }
    }
}
