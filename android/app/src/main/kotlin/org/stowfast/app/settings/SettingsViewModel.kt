package org.stowfast.app.settings

import kotlinx.coroutines.flow.update
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.Outcome
import org.stowfast.engine.Problem
import org.stowfast.engine.VehicleEngine

class SettingsViewModel(engine: VehicleEngine) :
    PageViewModel<SettingsState>(engine, SettingsState(units = null, reminds = null, problem = null)) {
    init {
        follow(::read)
    }

    fun onEvent(event: SettingsEvent) {
        when (event) {
            SettingsEvent.Shown -> wake()
            SettingsEvent.Dismiss -> {
                page.update { it.copy(problem = null) }
                wake()
            }
            is SettingsEvent.ChooseUnits -> send({ setUnits(event.units) }, ::failed)
            is SettingsEvent.ChooseReminding -> send({ setRemindH(event.hours) }, ::failed)
        }
    }

    private fun failed(problem: Problem) = page.update { it.copy(problem = problem) }

    private suspend fun read() {
        when (val answer = engine.units()) {
            is Outcome.Done -> page.update { it.copy(units = answer.value) }
            is Outcome.Failed -> failed(answer.problem)
        }
        when (val answer = engine.remindChoices()) {
            is Outcome.Done -> page.update { it.copy(reminds = answer.value) }
            is Outcome.Failed -> failed(answer.problem)
        }
    }
}
