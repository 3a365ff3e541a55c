package org.stowfast.app.alert

import kotlinx.coroutines.flow.update
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.Outcome
import org.stowfast.engine.Problem
import org.stowfast.engine.VehicleEngine

class AlertViewModel(engine: VehicleEngine, private val alertId: String) :
    PageViewModel<AlertState>(engine, AlertState(page = null, planned = emptySet(), reports = 0, problem = null)) {
    init {
        follow(::read)
    }

    fun onEvent(event: AlertEvent) {
        when (event) {
            AlertEvent.Shown -> wake()
            AlertEvent.Dismiss -> {
                page.update { it.copy(problem = null) }
                wake()
            }
            is AlertEvent.Report -> send({ report(event.row.variable, event.row.setting) }, ::failed) {
                page.update { it.copy(reports = it.reports + 1) }
            }
        }
    }

    private fun failed(problem: Problem) = page.update { it.copy(problem = problem) }

    private suspend fun read() {
        when (val answer = engine.routine()) {
            is Outcome.Done -> page.update { it.copy(planned = answer.value?.steps.orEmpty().map { step -> step.id }.toSet()) }
            is Outcome.Failed -> failed(answer.problem)
        }
        when (val answer = engine.alert(alertId)) {
            is Outcome.Done -> page.update { it.copy(page = answer.value) }
            is Outcome.Failed -> failed(answer.problem)
        }
    }
}
