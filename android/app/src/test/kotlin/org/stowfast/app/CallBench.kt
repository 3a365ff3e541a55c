package org.stowfast.app

import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.annotation.Config
import org.stowfast.engine.Outcome
import org.stowfast.engine.VehicleEngine

/**
 * How long a call of the engine takes from Kotlin, on the invented coach-built. Prints, and holds nothing to it:
 * `android/test.sh -Dtest=CallBench`.
 */
@RunWith(RobolectricTestRunner::class)
@Config(sdk = [34], application = android.app.Application::class)
class CallBench {
    @Test
    fun readAndRecord() = Bench().engine().use { engine ->
        val demo = engine.get { demos() }.first()
        engine.get { addDemo(demo.id) }
        engine.get { openRun("ready_to_drive") }
        val gauge = engine.get { gauges() }.first { it.choices.isNotEmpty() }
        time("now page", engine) { nowPage() }
        time("routine", engine) { routine() }
        time("reserves", engine) { reserves() }
        time("gauges", engine) { gauges() }
        time("alerts", engine) { alerts() }
        engine.get { level() }.use { live -> time("a look at the level", engine) { Outcome.Done(live.feel(0.1, 0.5, 9.8)) } }
        time("preview", engine) { preview("pitched_hookup") }
        time("a reading recorded", engine) { enterReading(gauge.id, gauge.unit, gauge.choices.first().value) }
    }

    private fun <T> time(name: String, engine: VehicleEngine, call: suspend VehicleEngine.() -> Outcome<T>) {
        val micros = List(CALLS) {
            val from = System.nanoTime()
            engine.get(call)
            (System.nanoTime() - from) / 1_000
        }.sorted()
        println("$name: median ${micros[CALLS / 2]} µs, worst ${micros.last()} µs of $CALLS")
    }

    private companion object {
        const val CALLS = 1_000
    }
}
