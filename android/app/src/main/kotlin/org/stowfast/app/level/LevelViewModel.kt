package org.stowfast.app.level

import androidx.lifecycle.viewModelScope
import kotlinx.coroutines.delay
import kotlinx.coroutines.flow.MutableStateFlow
import kotlinx.coroutines.flow.filterNotNull
import kotlinx.coroutines.flow.update
import kotlinx.coroutines.launch
import org.stowfast.app.ui.PageViewModel
import org.stowfast.engine.LevelLive
import org.stowfast.engine.LevelPage
import org.stowfast.engine.LevelRest
import org.stowfast.engine.Outcome
import org.stowfast.engine.VehicleEngine
import kotlin.time.Duration.Companion.milliseconds

/** The level as the phone feels it. Every look counts; what is shown changes a few times a second. */
class LevelViewModel(engine: VehicleEngine, sensor: Boolean) : PageViewModel<LevelState>(engine, LevelState(page = null, sensor, held = false, problem = null)) {
    private val felt = MutableStateFlow<LevelPage?>(null)
    private var live: LevelLive? = null

    init {
        follow(::read)
        viewModelScope.launch {
            felt.filterNotNull().collect { shown ->
                page.update { if (it.held) it else it.copy(page = shown) }
                delay(CALM)
            }
        }
    }

    /** What the sensor felt, along the axes of the phone. Unit: m/s². */
    fun feel(x: Float, y: Float, z: Float) {
        felt.value = live?.feel(x.toDouble(), y.toDouble(), z.toDouble()) ?: return
    }

    fun onEvent(event: LevelEvent) {
        when (event) {
            LevelEvent.Opened -> page.update { it.copy(page = null, held = false, problem = null) }
            LevelEvent.Shown -> wake()
            LevelEvent.Hold -> page.update { it.copy(held = !it.held) }
            LevelEvent.Set -> page.value.page?.rest?.let(::keep)
            LevelEvent.Forget -> keep(null)
            LevelEvent.Dismiss -> page.update { it.copy(problem = null) }
        }
    }

    private fun keep(rest: LevelRest?) = send({ setLevel(rest) }, { problem -> page.update { it.copy(problem = problem) } }) {
        page.update { it.copy(held = false, problem = null) }
    }

    /** The vehicle as it is known now. */
    private suspend fun read() {
        when (val answer = engine.level()) {
            is Outcome.Done -> {
                live?.close()
                live = answer.value
            }
            is Outcome.Failed -> page.update { it.copy(problem = answer.problem) }
        }
    }

    override fun onCleared() {
        live?.close()
        live = null
    }
}

/** Between two pages: what changes faster is not read. */
private val CALM = 250.milliseconds
