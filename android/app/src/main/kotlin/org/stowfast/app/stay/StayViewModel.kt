package org.stowfast.app.stay

import androidx.lifecycle.SavedStateHandle
import kotlinx.coroutines.flow.update
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.Outcome
import org.stowfast.engine.VehicleEngine

/** [kept] holds how many nights are asked for. */
class StayViewModel(engine: VehicleEngine, private val kept: SavedStateHandle) :
    PageViewModel<StayState>(engine, StayState(nights = kept[NIGHTS] ?: FIRST, page = null, problem = null)) {
    init {
        follow(::read)
    }

    fun onEvent(event: StayEvent) {
        when (event) {
            StayEvent.Shown -> Unit
            StayEvent.Dismiss -> page.update { it.copy(problem = null) }
            is StayEvent.Choose -> {
                kept[NIGHTS] = event.nights
                page.update { it.copy(nights = event.nights) }
            }
        }
        wake()
    }

    /** An answer to what is no longer asked comes too late. */
    private suspend fun read() {
        val nights = page.value.nights
        when (val answer = engine.stay(nights)) {
            is Outcome.Done -> page.update { if (it.nights == nights) it.copy(page = answer.value) else it }
            is Outcome.Failed -> page.update { it.copy(problem = answer.problem) }
        }
    }
}

private const val NIGHTS = "nights"

/** What the page begins with. */
private const val FIRST = 3L
