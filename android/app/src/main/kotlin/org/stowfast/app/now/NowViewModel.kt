package org.stowfast.app.now

import androidx.lifecycle.viewModelScope
import kotlinx.coroutines.flow.update
import kotlinx.coroutines.launch
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.ItemRow
import org.stowfast.engine.Outcome
import org.stowfast.engine.Problem
import org.stowfast.engine.VehicleEngine
import org.stowfast.engine.stepIn

class NowViewModel(engine: VehicleEngine) :
    PageViewModel<NowState>(
        engine,
        NowState(
            page = null,
            vehicleMissing = false,
            road = null,
            leaving = false,
            card = null,
            opened = null,
            nowUtcMs = engine.utcMs(),
            running = false,
            problem = null,
        ),
    ) {
    init {
        follow(::read)
    }

    fun onEvent(event: NowEvent) {
        when (event) {
            NowEvent.Shown -> wake()
            NowEvent.Left -> page.update { it.copy(running = false, opened = null) }
            NowEvent.Leave -> leave()
            NowEvent.Home -> page.update { it.copy(leaving = false, opened = null) }
            NowEvent.DriveOff -> send({ driveOff() }, ::failed) { page.update { it.copy(leaving = false) } }
            is NowEvent.Say -> send({ report(event.variable, event.setting) }, ::failed)
            is NowEvent.Inspect -> inspect(event.item, event.targetId ?: page.value.road ?: return)
            is NowEvent.Freed -> send({ clearStuck(event.entry) }, ::failed)
            NowEvent.GoToStep -> goToStep()
            NowEvent.Dismiss -> {
                page.update { it.copy(problem = null) }
                wake()
            }
            NowEvent.Resume -> send({ resume() }, ::failed) { running() }
        }
    }

    /** Whoever drives off is believed, with or without the card. */
    private fun leave() {
        page.update { it.copy(leaving = true) }
        viewModelScope.launch {
            (engine.driveCard() as? Outcome.Done)?.let { answer -> page.update { it.copy(card = answer.value) } }
        }
    }

    private fun inspect(item: ItemRow, targetId: String) {
        page.update { it.copy(opened = Blocker(item, targetId, way = null, step = null, against = emptyList())) }
        viewModelScope.launch {
            val way = when (val answer = engine.preview(targetId)) {
                is Outcome.Done -> answer.value
                is Outcome.Failed -> return@launch failed(answer.problem)
            }
            val step = item.stepIn(way.steps)
            val against = step?.let { (engine.refusals(it.id) as? Outcome.Done)?.value }.orEmpty()
            page.update { if (it.opened?.item == item) it.copy(opened = Blocker(item, targetId, way, step, against)) else it }
        }
    }

    /** Into the routine that deals with it: the one under way, or a new one. */
    private fun goToStep() {
        val target = page.value.opened?.targetId ?: return
        val run = page.value.page?.run
        when {
            run?.targetId != target -> send({ openRun(target) }, ::failed) { running() }
            run.paused -> send({ resume() }, ::failed) { running() }
            else -> running()
        }
    }

    private fun running() = page.update { it.copy(running = true) }

    private fun failed(problem: Problem) = page.update { it.copy(problem = problem, leaving = false, opened = null) }

    private suspend fun read() {
        val vehicles = when (val answer = engine.vehicles()) {
            is Outcome.Done -> answer.value
            is Outcome.Failed -> return failed(answer.problem)
        }
        if (vehicles.none { it.current }) {
            page.update { it.copy(page = null, vehicleMissing = true) }
            return
        }
        when (val answer = engine.targets()) {
            is Outcome.Done -> page.update { it.copy(road = answer.value.firstOrNull { target -> target.road }?.id) }
            is Outcome.Failed -> return failed(answer.problem)
        }
        when (val answer = engine.nowPage()) {
            is Outcome.Done -> page.update {
                it.copy(
                    page = answer.value,
                    vehicleMissing = false,
                    opened = it.opened?.takeIf { open -> open.item in answer.value.items + answer.value.stands?.items.orEmpty() },
                    nowUtcMs = engine.utcMs(),
                )
            }
            is Outcome.Failed -> failed(answer.problem)
        }
    }
}
