package org.stowfast.app.drivecard

import kotlinx.coroutines.flow.update
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.Outcome
import org.stowfast.engine.VehicleEngine

class DriveCardViewModel(engine: VehicleEngine) :
    PageViewModel<DriveCardState>(engine, DriveCardState(page = null, problem = null)) {
    init {
        follow(::read)
    }

    fun onEvent(event: DriveCardEvent) {
        if (event == DriveCardEvent.Dismiss) page.update { it.copy(problem = null) }
        wake()
    }

    private suspend fun read() {
        when (val answer = engine.driveCard()) {
            is Outcome.Done -> page.update { it.copy(page = answer.value) }
            is Outcome.Failed -> page.update { it.copy(problem = answer.problem) }
        }
    }
}
