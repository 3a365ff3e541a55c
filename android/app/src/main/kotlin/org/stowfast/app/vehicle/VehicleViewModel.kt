package org.stowfast.app.vehicle

import kotlinx.coroutines.flow.update
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.Outcome
import org.stowfast.engine.Problem
import org.stowfast.engine.VehicleEngine

class VehicleViewModel(engine: VehicleEngine) :
    PageViewModel<VehicleState>(
        engine,
        VehicleState(vehicles = null, demos = emptyList(), unreadable = false, problem = null, chosen = false),
    ) {
    init {
        follow(::read)
    }

    fun onEvent(event: VehicleEvent) {
        when (event) {
            VehicleEvent.Shown -> wake()
            VehicleEvent.Left -> page.update { it.copy(chosen = false) }
            VehicleEvent.Dismiss -> {
                page.update { it.copy(problem = null, unreadable = false) }
                wake()
            }
            is VehicleEvent.AddDemo -> send({ addDemo(event.id) }, ::failed) { chosen() }
            is VehicleEvent.Choose -> send({ chooseVehicle(event.id) }, ::failed) { chosen() }
            is VehicleEvent.OpenPack -> openPack(event)
        }
    }

    private fun openPack(event: VehicleEvent.OpenPack) {
        val (name, text, replaces) = event
        when {
            text == null -> page.update { it.copy(unreadable = true) }
            replaces == null -> send({ addPack(text, name) }, ::failed) { chosen() }
            else -> send({ replacePack(replaces, text, name) }, ::failed) { chosen() }
        }
    }

    private fun chosen() = page.update { it.copy(chosen = true) }

    private fun failed(problem: Problem) = page.update { it.copy(problem = problem) }

    private suspend fun read() {
        when (val vehicles = engine.vehicles()) {
            is Outcome.Done -> page.update { it.copy(vehicles = vehicles.value) }
            is Outcome.Failed -> failed(vehicles.problem)
        }
        when (val demos = engine.demos()) {
            is Outcome.Done -> page.update { it.copy(demos = demos.value) }
            is Outcome.Failed -> failed(demos.problem)
        }
    }
}
