package org.stowfast.app.preview

import kotlinx.coroutines.flow.update
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.Outcome
import org.stowfast.engine.Problem
import org.stowfast.engine.VehicleEngine

/** [aim] is what the engine knows the target by, with its parts, or `back/` and an entry. */
class PreviewViewModel(engine: VehicleEngine, private val aim: String) :
    PageViewModel<PreviewState>(
        engine,
        PreviewState(way = null, variants = emptyList(), picked = null, run = null, begun = false, problem = null),
    ) {
    init {
        follow(::read)
    }

    fun onEvent(event: PreviewEvent) {
        when (event) {
            PreviewEvent.Shown -> wake()
            PreviewEvent.Left -> page.update { it.copy(begun = false) }
            PreviewEvent.Dismiss -> {
                page.update { it.copy(problem = null) }
                wake()
            }
            is PreviewEvent.Pick -> {
                page.update { it.copy(picked = event.variantId) }
                wake()
            }
            PreviewEvent.Begin -> begin()
        }
    }

    /** Into this routine: the one under way, or a new one. */
    private fun begin() {
        val state = page.value
        when {
            !state.runs() -> send({ openRun(state.picked ?: aim) }, ::failed) { begun() }
            state.run?.paused == true -> send({ resume() }, ::failed) { begun() }
            else -> begun()
        }
    }

    private fun begun() = page.update { it.copy(begun = true) }

    private fun failed(problem: Problem) = page.update { it.copy(problem = problem) }

    private suspend fun read() {
        when (val answer = engine.nowPage()) {
            is Outcome.Done -> page.update { it.copy(run = answer.value.run) }
            is Outcome.Failed -> return failed(answer.problem)
        }
        val whole = when (val answer = engine.preview(aim)) {
            is Outcome.Done -> answer.value
            is Outcome.Failed -> return failed(answer.problem)
        }
        // The engine lists the variants only where none is named.
        val way = when (val picked = page.value.picked?.let { engine.preview(it) }) {
            null -> whole
            is Outcome.Done -> picked.value
            is Outcome.Failed -> return failed(picked.problem)
        }
        page.update { it.copy(way = way, variants = whole.variants) }
    }
}

/** Whether the very routine that is shown is under way: the variant is in its title alone. */
fun PreviewState.runs(): Boolean = run?.targetId == way?.run?.targetId && run?.targetTitle == way?.run?.targetTitle

/** The variant that is shown: the one that was picked, else the one that the engine means. */
fun PreviewState.shown(): String? = picked ?: variants.find { it.chosen }?.id
