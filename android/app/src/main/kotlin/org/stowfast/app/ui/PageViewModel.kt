package org.stowfast.app.ui

import androidx.lifecycle.ViewModel
import androidx.lifecycle.viewModelScope
import kotlinx.coroutines.channels.BufferOverflow
import kotlinx.coroutines.flow.MutableSharedFlow
import kotlinx.coroutines.flow.MutableStateFlow
import kotlinx.coroutines.flow.StateFlow
import kotlinx.coroutines.flow.conflate
import kotlinx.coroutines.flow.map
import kotlinx.coroutines.flow.merge
import kotlinx.coroutines.flow.onStart
import kotlinx.coroutines.launch
import org.stowfast.engine.Outcome
import org.stowfast.engine.Problem
import org.stowfast.engine.VehicleEngine

/** What the pages' models share: one state, read anew after every command and whenever the page is shown. */
abstract class PageViewModel<S>(protected val engine: VehicleEngine, first: S) : ViewModel() {
    private val wakes = MutableSharedFlow<Unit>(extraBufferCapacity = 1, onBufferOverflow = BufferOverflow.DROP_OLDEST)
    protected val page = MutableStateFlow(first)
    private var busy = false

    val state: StateFlow<S> = page

    /** Called once by each model. One read at a time; what arrives meanwhile leads to one more. */
    protected fun follow(read: suspend () -> Unit) {
        viewModelScope.launch {
            merge(engine.changes.map { }, wakes).onStart { emit(Unit) }.conflate().collect { read() }
        }
    }

    protected fun wake() {
        wakes.tryEmit(Unit)
    }

    /** Sends one command. Another that comes before its answer is a stray and is dropped. */
    protected fun <T> send(call: suspend VehicleEngine.() -> Outcome<T>, failed: (Problem) -> Unit, done: (T) -> Unit = {}) {
        if (busy) return
        busy = true
        viewModelScope.launch {
            val outcome = try {
                engine.call()
            } finally {
                busy = false
            }
            when (outcome) {
                is Outcome.Done -> done(outcome.value)
                is Outcome.Failed -> failed(outcome.problem)
            }
        }
    }
}
