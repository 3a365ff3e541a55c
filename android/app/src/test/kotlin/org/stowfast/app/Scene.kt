package org.stowfast.app

import org.stowfast.engine.GestureRow
import org.stowfast.engine.Line
import org.stowfast.engine.Odd
import org.stowfast.engine.Outcome
import org.stowfast.engine.Problem
import org.stowfast.engine.RoutinePage
import org.stowfast.engine.VehicleEngine

/**
 * A state for pictures: an invented [vehicle], or none, of which [told] was said to the real engine on a real file. It is
 * brought to that state by the first that is read of it, and stays so.
 */
class Scene(private val vehicle: String? = "a", private val told: Scene.() -> Any? = {}) {
    private val bench = Bench()
    private val engine = bench.engine()
    private var begun = false

    val nowMs: Long
        get() = get { utcMs().let { Outcome.Done(it) } }

    fun <T> get(call: suspend VehicleEngine.() -> Outcome<T>): T {
        if (!begun) {
            begun = true
            vehicle?.let { get { addDemo(it) } }
            told()
        }
        return engine.get(call)
    }

    /** What a call that must fail says. */
    fun <T> problem(call: suspend VehicleEngine.() -> Outcome<T>): Problem {
        val outcome = get { Outcome.Done(call()) }
        return (outcome as? Outcome.Failed)?.problem ?: throw AssertionError("it did not fail: $outcome")
    }

    fun report(vararg facts: Pair<String, String>) {
        for ((variable, setting) in facts) get { report(variable, setting) }
    }

    fun pass(ms: Long) = bench.pass(ms)

    /** The phone is turned off and on again, and its clock is behind. */
    fun clockBehind() {
        bench.setClock(-3 * HOUR_MS)
        bench.restart()
    }

    fun routine(): RoutinePage = get { routine() } ?: throw AssertionError("no routine is under way")

    fun gesture(): GestureRow = routine().stops.first().gestures.first()

    /** Confirms what the current gesture confirms, [odd] lines as they were; waits where it is waited. */
    fun confirm(odd: Map<String, Odd> = emptyMap()) {
        val wait = routine().waitsS
        if (wait != null) return pass(wait * 1_000L)
        pass(10_000)
        get { confirm(gesture().steps.map { Line(it, odd[it]) }) }
    }

    fun confirmUntil(reached: Scene.() -> Boolean) {
        while (!reached()) confirm()
    }

    /** The routine is carried out to its end, and closed. */
    fun carryOut(target: String) {
        get { openRun(target) }
        confirmUntil { routine().finished }
        get { closeRun() }
    }

    companion object {
        const val MINUTE_MS = 60_000L
        const val HOUR_MS = 60 * MINUTE_MS
        const val DAY_MS = 24 * HOUR_MS

        /** On the way out, at the gesture that has the step [at]. */
        fun leaving(at: String): Scene = Scene {
            get { openRun("ready_to_drive") }
            confirmUntil { at in gesture().steps }
        }

        /** Ready for the road. */
        fun ready(): Scene = Scene { carryOut("ready_to_drive") }

        /** On the road, and nothing is wrong. */
        fun driven(): Scene = Scene {
            carryOut("ready_to_drive")
            get { driveOff() }
        }
    }
}
