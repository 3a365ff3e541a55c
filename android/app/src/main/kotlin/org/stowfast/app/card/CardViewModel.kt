package org.stowfast.app.card

import kotlinx.coroutines.Dispatchers
import kotlinx.coroutines.flow.update
import kotlinx.coroutines.withContext
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.Outcome
import org.stowfast.engine.Problem
import org.stowfast.engine.VehicleEngine

class CardViewModel(engine: VehicleEngine, private val fittingId: String) :
    PageViewModel<CardState>(
        engine,
        CardState(page = null, picture = null, enlarged = false, removing = false, unreadable = false, problem = null),
    ) {
    init {
        follow(::read)
    }

    fun onEvent(event: CardEvent) {
        when (event) {
            CardEvent.Shown -> wake()
            CardEvent.Dismiss -> {
                page.update { it.copy(problem = null, unreadable = false) }
                wake()
            }
            CardEvent.Enlarge -> page.update { it.copy(enlarged = true) }
            CardEvent.Reduce -> page.update { it.copy(enlarged = false) }
            is CardEvent.Choose -> choose(event.image)
            CardEvent.AskToRemove -> page.update { it.copy(removing = true) }
            CardEvent.Keep -> page.update { it.copy(removing = false) }
            CardEvent.Remove -> {
                page.update { it.copy(removing = false) }
                send({ removePhoto(fittingId) }, ::failed)
            }
        }
    }

    private fun choose(image: ByteArray?) {
        page.update { it.copy(removing = false, unreadable = image == null) }
        if (image != null) send({ setPhoto(fittingId, image) }, ::failed)
    }

    private fun failed(problem: Problem) = page.update { it.copy(problem = problem) }

    private suspend fun read() {
        when (val answer = engine.card(fittingId)) {
            is Outcome.Done -> {
                val picture = if (answer.value.photo == null) null else picture()
                page.update { it.copy(page = answer.value, picture = picture, enlarged = it.enlarged && picture is Picture.Drawn) }
            }
            is Outcome.Failed -> failed(answer.problem)
        }
    }

    private suspend fun picture(): Picture? = when (val answer = engine.photo(fittingId)) {
        is Outcome.Done -> answer.value?.let { withContext(Dispatchers.Default) { drawn(it) } }
        is Outcome.Failed -> null.also { failed(answer.problem) }
    }
}
