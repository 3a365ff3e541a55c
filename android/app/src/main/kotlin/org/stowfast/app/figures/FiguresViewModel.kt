package org.stowfast.app.figures

import androidx.lifecycle.SavedStateHandle
import kotlinx.coroutines.flow.update
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.Outcome
import org.stowfast.engine.Problem
import org.stowfast.engine.VehicleEngine

/** [kept] holds which number is open. */
class FiguresViewModel(engine: VehicleEngine, private val kept: SavedStateHandle) :
    PageViewModel<FiguresState>(engine, FiguresState(rows = null, open = kept[OPEN], problem = null)) {
    init {
        follow(::read)
    }

    fun onEvent(event: FiguresEvent) {
        when (event) {
            FiguresEvent.Shown -> wake()
            FiguresEvent.Dismiss -> {
                page.update { it.copy(problem = null) }
                wake()
            }
            is FiguresEvent.Open -> open(event.figureId.takeIf { it != page.value.open })
            is FiguresEvent.Tell -> send({ tellFigure(event.figureId, event.value) }, ::failed) {
                open(null)
                page.update { it.copy(problem = null) }
            }
        }
    }

    private fun open(figure: String?) {
        kept[OPEN] = figure
        page.update { it.copy(open = figure) }
    }

    private fun failed(problem: Problem) = page.update { it.copy(problem = problem) }

    private suspend fun read() {
        when (val answer = engine.figures()) {
            is Outcome.Done -> page.update { it.copy(rows = answer.value) }
            is Outcome.Failed -> failed(answer.problem)
        }
    }
}

private const val OPEN = "open"
