package org.stowfast.app

import kotlinx.coroutines.runBlocking
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.annotation.Config
import org.stowfast.engine.Outcome
import org.stowfast.engine.VehicleEngine

/**
 * What calls of the engine cost from Kotlin, through JNA, on a real file; printed and held to nothing. Not part of the
 * ordinary run: see "Running one test" in DEVELOPERS.md.
 */
@RunWith(RobolectricTestRunner::class)
@Config(sdk = [34], application = android.app.Application::class)
class Speed {
    @Test
    fun calls() = Bench().engine().use { engine ->
        engine.get { addDemo("a") }
        time("now page, no routine", engine) { nowPage() }
        engine.get { openRun("ready_to_drive") }
        time("vehicles", engine) { vehicles() }
        time("now page", engine) { nowPage() }
        time("routine page", engine) { routine() }
        time("preview of the leaving", engine) { preview("ready_to_drive") }
        time("tick, on the disk", engine, after = { unmark(it.entries.last()) }) { tick("pump.switch_off") }
    }

    /** Prints the median and the worst; what [after] does is not timed. */
    private fun <T> time(
        name: String,
        engine: VehicleEngine,
        after: suspend VehicleEngine.(T) -> Unit = {},
        call: suspend VehicleEngine.() -> Outcome<T>,
    ) {
        val times = (1..WARM + TIMED).map {
            val from = System.nanoTime()
            val answer = engine.get(call)
            val took = System.nanoTime() - from
            runBlocking { engine.after(answer) }
            took
        }
        val timed = times.drop(WARM).sorted()
        println("%-24s median %6.2f ms, slowest tenth from %6.2f ms, worst %6.2f ms (%d calls)".format(
            name, timed[TIMED / 2] / 1e6, timed[TIMED * 9 / 10] / 1e6, timed.last() / 1e6, TIMED,
        ))
    }

    private companion object {
        const val WARM = 50
        const val TIMED = 1_000
    }
}
