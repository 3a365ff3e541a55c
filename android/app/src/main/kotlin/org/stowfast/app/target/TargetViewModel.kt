package org.stowfast.app.target

import androidx.lifecycle.SavedStateHandle
import kotlinx.coroutines.flow.update
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.Outcome
import org.stowfast.engine.VehicleEngine

/** [kept] holds what was opened and ticked. */
class TargetViewModel(engine: VehicleEngine, private val kept: SavedStateHandle) :
    PageViewModel<TargetState>(
        engine,
        TargetState(targets = null, open = kept[OPEN], ticked = kept.get<ArrayList<String>>(TICKED).orEmpty().toSet(), problem = null),
    ) {
    init {
        follow(::read)
    }

    fun onEvent(event: TargetEvent) {
        when (event) {
            TargetEvent.Shown -> wake()
            TargetEvent.Dismiss -> {
                page.update { it.copy(problem = null) }
                wake()
            }
            is TargetEvent.Open -> choose(event.targetId.takeIf { it != page.value.open }, emptySet())
            is TargetEvent.Tick -> page.value.ticked.let { choose(page.value.open, if (event.partId in it) it - event.partId else it + event.partId) }
        }
    }

    private fun choose(open: String?, ticked: Set<String>) {
        kept[OPEN] = open
        kept[TICKED] = ArrayList(ticked)
        page.update { it.copy(open = open, ticked = ticked) }
    }

    private suspend fun read() {
        when (val answer = engine.targets()) {
            is Outcome.Done -> page.update { it.copy(targets = answer.value) }
            is Outcome.Failed -> page.update { it.copy(problem = answer.problem) }
        }
    }
}

private const val OPEN = "open"
private const val TICKED = "ticked"
