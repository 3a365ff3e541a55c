package org.stowfast.app.fridge

import androidx.lifecycle.SavedStateHandle
import kotlinx.coroutines.flow.update
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.Outcome
import org.stowfast.engine.Problem
import org.stowfast.engine.VehicleEngine
import java.time.LocalDateTime

/** When they leave is kept here alone: it is a question, and no fact of the vehicle. */
class FridgeViewModel(engine: VehicleEngine, private val kept: SavedStateHandle) :
    PageViewModel<FridgeState>(
        engine,
        FridgeState(page = null, answered = false, picking = kept.get<String>(PICKING)?.let(LocalDateTime::parse), nowUtcMs = engine.utcMs(), problem = null),
    ) {
    init {
        follow(::read)
    }

    fun onEvent(event: FridgeEvent) {
        when (event) {
            FridgeEvent.Shown -> wake()
            FridgeEvent.Tick -> tick()
            FridgeEvent.Dismiss -> {
                page.update { it.copy(problem = null) }
                wake()
            }
            is FridgeEvent.Pick -> pick(event.at)
            is FridgeEvent.Leave -> event.utcMs?.let { send({ fridgeFor(it) }, ::failed) { _ -> leave(it) } } ?: leave(null)
            is FridgeEvent.Set -> send({ setFridge(event.selector) }, ::failed)
        }
    }

    private fun pick(at: LocalDateTime?) {
        kept[PICKING] = at?.toString()
        page.update { it.copy(picking = at, problem = null) }
    }

    private fun leave(utcMs: Long?) {
        kept[LEAVE] = utcMs
        pick(null)
        wake()
    }

    /** Moves the countdown on. When it has run out, the engine is asked what holds now. */
    private fun tick() {
        val before = page.value
        val nowUtcMs = engine.utcMs()
        page.update { it.copy(nowUtcMs = nowUtcMs) }
        val deadline = before.page?.nextChangeUtcMs ?: return
        if (deadline in before.nowUtcMs..nowUtcMs) wake()
    }

    private fun failed(problem: Problem) = page.update { it.copy(problem = problem) }

    private suspend fun read() {
        val leave = kept.get<Long>(LEAVE)
        val answer = if (leave == null) engine.fridge() else engine.fridgeFor(leave)
        when {
            answer is Outcome.Done -> page.update {
                it.copy(page = answer.value, answered = true, nowUtcMs = engine.utcMs())
            }
            // That departure is over meanwhile.
            answer is Outcome.Failed && leave != null && answer.problem is Problem.InvalidInput -> {
                kept.remove<Long>(LEAVE)
                wake()
            }
            answer is Outcome.Failed -> failed(answer.problem)
        }
    }
}

private const val LEAVE = "leave"
private const val PICKING = "picking"
