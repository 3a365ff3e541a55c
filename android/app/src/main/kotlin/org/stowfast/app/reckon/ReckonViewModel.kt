package org.stowfast.app.reckon

import androidx.lifecycle.SavedStateHandle
import kotlinx.coroutines.flow.update
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.Choice
import org.stowfast.engine.Outcome
import org.stowfast.engine.Pick
import org.stowfast.engine.VehicleEngine

/** One question of numbers. [kept] holds what it is asked with, so that it outlives the process. */
class ReckonViewModel(engine: VehicleEngine, private val id: String, private val kept: SavedStateHandle) :
    PageViewModel<ReckonState>(engine, ReckonState(kept.picks(), kept[OPEN], page = null, problem = null)) {
    init {
        follow(::read)
    }

    fun onEvent(event: ReckonEvent) {
        when (event) {
            ReckonEvent.Shown -> wake()
            ReckonEvent.Dismiss -> {
                page.update { it.copy(problem = null) }
                wake()
            }
            is ReckonEvent.Choose -> choose(event.choiceId, event.optionId)
            is ReckonEvent.Number -> {
                open(null)
                ask(event.choiceId, listOfNotNull(event.value?.toString()))
            }
            is ReckonEvent.Given -> take(event.picks)
            is ReckonEvent.Open -> open(event.id.takeIf { it != page.value.open })
            is ReckonEvent.Tell -> send({ tellFigure(event.figureId, event.value) }, { problem -> page.update { it.copy(problem = problem) } }) {
                open(null)
                page.update { it.copy(problem = null) }
            }
        }
    }

    private fun choose(choiceId: String, optionId: String) {
        val choice = page.value.page?.choices?.find { it.id == choiceId } ?: return
        if (!choice.many) open(null)
        ask(choiceId, choice.after(optionId))
    }

    /** Asks with these values of one choice in place of those before. */
    private fun ask(choiceId: String, values: List<String>) =
        take(page.value.picks.filter { it.choice != choiceId } + values.map { Pick(choiceId, it) })

    private fun take(picks: List<Pick>) {
        kept[PICKS] = ArrayList(picks.flatMap { listOf(it.choice, it.value) })
        page.update { it.copy(picks = picks) }
        wake()
    }

    private fun open(what: String?) {
        kept[OPEN] = what
        page.update { it.copy(open = what) }
    }

    /** An answer to what is no longer asked comes too late. */
    private suspend fun read() {
        val picks = page.value.picks
        when (val answer = engine.reckon(id, picks)) {
            is Outcome.Done -> page.update { if (it.picks == picks) it.copy(page = answer.value) else it }
            is Outcome.Failed -> page.update { it.copy(problem = answer.problem) }
        }
    }
}

/** What is chosen once an option was tapped: that one alone, or with several the others as they were. */
private fun Choice.after(optionId: String): List<String> {
    if (!many) return listOf(optionId)
    val chosen = options.filter { if (it.id == optionId) !it.chosen else it.chosen }
    return chosen.map { it.id }.ifEmpty { listOf(NONE) }
}

private fun SavedStateHandle.picks(): List<Pick> =
    get<ArrayList<String>>(PICKS).orEmpty().chunked(2) { (choice, value) -> Pick(choice, value) }

private const val PICKS = "picks"
private const val OPEN = "open"

/** How the engine is told that none of several is chosen. */
private const val NONE = "none"
