package org.stowfast.app.place

import kotlinx.coroutines.flow.update
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.Changes
import org.stowfast.engine.Outcome
import org.stowfast.engine.Problem
import org.stowfast.engine.VehicleEngine

class PlaceViewModel(engine: VehicleEngine) :
    PageViewModel<PlaceState>(
        engine,
        PlaceState(now = null, places = emptyList(), rules = emptyList(), unreadable = false, arrived = false, problem = null),
    ) {
    init {
        follow(::read)
    }

    fun onEvent(event: PlaceEvent) {
        when (event) {
            PlaceEvent.Shown -> wake()
            PlaceEvent.Left -> page.update { it.copy(arrived = false) }
            PlaceEvent.Dismiss -> {
                page.update { it.copy(problem = null, unreadable = false) }
                wake()
            }
            is PlaceEvent.ArriveAt -> arrive { arriveAt(event.placeId) }
            PlaceEvent.Elsewhere -> arrive { arrive() }
            is PlaceEvent.OpenFile -> when (val text = event.text) {
                null -> page.update { it.copy(unreadable = true) }
                else -> arrive { arriveAtFile(text, event.name) }
            }
            is PlaceEvent.Country -> send({ tellCountry(event.code) }, ::failed)
            is PlaceEvent.Carrier -> send({ tellCarrier(event.sort) }, ::failed)
        }
    }

    private fun arrive(call: suspend VehicleEngine.() -> Outcome<Changes>) =
        send(call, ::failed) { page.update { it.copy(arrived = true) } }

    private fun failed(problem: Problem) = page.update { it.copy(problem = problem) }

    private suspend fun read() {
        when (val answer = engine.nowPage()) {
            is Outcome.Done -> page.update { it.copy(now = answer.value) }
            is Outcome.Failed -> return failed(answer.problem)
        }
        when (val answer = engine.rules()) {
            is Outcome.Done -> page.update { it.copy(rules = answer.value) }
            is Outcome.Failed -> return failed(answer.problem)
        }
        when (val answer = engine.places()) {
            is Outcome.Done -> page.update { it.copy(places = answer.value) }
            is Outcome.Failed -> failed(answer.problem)
        }
    }
}
