package org.stowfast.app.vehicle

import androidx.lifecycle.viewModelScope
import kotlinx.coroutines.flow.update
import kotlinx.coroutines.launch
import org.stowfast.app.ui.NewFile
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.Outcome
import org.stowfast.engine.Problem
import org.stowfast.engine.VehicleEngine

class VehicleViewModel(engine: VehicleEngine) :
    PageViewModel<VehicleState>(
        engine,
        VehicleState(vehicles = null, demos = emptyList(), unreadable = false, written = null, problem = null, chosen = false),
    ) {
    init {
        follow(::read)
    }

    fun onEvent(event: VehicleEvent) {
        when (event) {
            VehicleEvent.Shown -> wake()
            VehicleEvent.Left -> page.update { it.copy(chosen = false) }
            VehicleEvent.Dismiss -> {
                page.update { it.copy(problem = null, unreadable = false, written = null) }
                wake()
            }
            is VehicleEvent.AddDemo -> send({ addDemo(event.id) }, ::failed) { chosen() }
            is VehicleEvent.Choose -> send({ chooseVehicle(event.id) }, ::failed) { chosen() }
            is VehicleEvent.OpenPack -> openPack(event)
            is VehicleEvent.Export -> export(event.file)
            is VehicleEvent.Import -> import(event)
        }
    }

    private fun openPack(event: VehicleEvent.OpenPack) {
        page.update { it.copy(written = null) }
        val (name, text, replaces) = event
        when {
            text == null -> page.update { it.copy(unreadable = true) }
            replaces == null -> send({ addPack(text, name) }, ::failed) { chosen() }
            else -> send({ replacePack(replaces, text, name) }, ::failed) { chosen() }
        }
    }

    private fun export(file: NewFile) = send(
        { exportText() },
        { problem ->
            viewModelScope.launch { file.remove() }
            failed(problem)
        },
    ) { text ->
        viewModelScope.launch {
            val written = Written(file.name(), whole = file.write(text))
            page.update { it.copy(written = written) }
        }
    }

    /** The engine tells what became of each vehicle. On a phone without one, its page comes next. */
    private fun import(event: VehicleEvent.Import) {
        val first = page.value.vehicles.isNullOrEmpty()
        page.update { it.copy(written = null) }
        when (val text = event.text) {
            null -> page.update { it.copy(unreadable = true) }
            else -> send({ importText(text, event.name) }, ::failed) { if (first) chosen() }
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
            is Outcome.Done -> page.update { it.copy(demos = demos.value.filterNot { demo -> demo.here }) }
            is Outcome.Failed -> failed(demos.problem)
        }
    }
}
