package org.stowfast.app

import kotlinx.coroutines.runBlocking
import org.junit.Assert.assertEquals
import org.junit.Assert.assertNotNull
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.annotation.Config
import org.stowfast.engine.GaugeUnit
import org.stowfast.engine.Outcome
import org.stowfast.engine.Problem
import org.stowfast.engine.StepKind
import org.stowfast.engine.VehicleEngine
import org.stowfast.engine.VerdictKind
import java.io.File
import java.io.RandomAccessFile

/** The generated Kotlin against the real library: every call once, and every problem that can be brought about. */
@RunWith(RobolectricTestRunner::class)
@Config(sdk = [34], application = android.app.Application::class)
class EngineTest {
    private val bench = Bench()

    @Test
    fun everyCallAnswers() = bench.engine().use { engine ->
        assertEquals(emptyList<String>(), engine.get { notices() })
        val demo = engine.get { demos() }.first()
        val first = engine.get { addDemo(demo.id) }
        val second = engine.get { addPack(DEMO_PACK.replace("Wren, a coach-built for two", "Robin"), "pack.toml") }
        assertEquals(listOf(first, second), engine.get { vehicles() }.map { it.id })
        engine.get { chooseVehicle(first) }
        assertTrue(engine.get { targets() }.any { it.road })
        assertEquals(VerdictKind.BLOCKED, engine.get { nowPage() }.verdict)

        assertEquals(null, engine.get { routine() })
        engine.get { openRun("ready_to_drive") }
        val plan = engine.get { routine() } ?: throw AssertionError("no routine")
        val move = plan.steps.first { it.kind == StepKind.MOVE }
        val look = plan.steps.first { it.kind == StepKind.LOOK }
        val ticked = engine.get { tick(move.id) }.entries.last()
        engine.get { look(look.id, look.choices.last().id) }
        engine.get { unmark(ticked) }
        engine.get { cannot(move.id, "stiff") }
        val stuck = engine.get { routine() }?.stuck.orEmpty().single()
        engine.get { clearStuck(stuck.entry) }
        engine.get { pause() }
        assertEquals(true, engine.get { routine() }?.run?.paused)
        engine.get { resume() }
        assertEquals(true, engine.get { routine() }?.resumedFromPause)
        engine.get { closeRun() }

        engine.get { report("pump.power", "off") }
        assertNotNull(engine.get { fridge() })
        engine.get { setFridge("gas") }
        val gauge = engine.get { gauges() }.first { it.choices.isNotEmpty() }
        engine.get { enterReading(gauge.id, gauge.unit, gauge.choices.first().value) }
        assertTrue(engine.get { log(5) }.size == 5)
    }

    @Test
    fun everyReachableProblemHasItsVariant() = bench.engine().use { engine ->
        assertTrue(engine.problem { nowPage() } is Problem.Conflict)
        assertTrue(engine.problem { pause() } is Problem.Conflict)
        assertTrue(engine.problem { addDemo("nothing") } is Problem.NotFound)
        engine.get { addDemo("a") }
        assertTrue(engine.problem { log(0) } is Problem.InvalidInput)
        assertTrue(engine.problem { enterReading("fresh", GaugeUnit.LAMPS, -1.0) } is Problem.InvalidInput)
        assertTrue(engine.problem { openRun("nothing") } is Problem.NotFound)
    }

    @Test
    fun aBrokenPackLeavesTheGoodVehicleAlone() = bench.engine().use { engine ->
        val good = engine.get { addDemo("a") }
        val before = engine.get { nowPage() }
        val problem = engine.problem { addPack("stowfast_pack = 1\nnonsense = true\n", "van.toml") }
        assertTrue("$problem", problem is Problem.BrokenPack && problem.file == "van.toml" && problem.line == 2)
        assertEquals(listOf(good), engine.get { vehicles() }.map { it.id })
        assertEquals(before, engine.get { nowPage() })
    }

    @Test
    fun aNewerRecordIsNotTouched() {
        bench.engine().use { it.get { addDemo("a") } }
        RandomAccessFile(bench.file(), "rw").use {
            it.seek(USER_VERSION_AT)
            it.writeInt(999)
        }
        val bytes = bench.file().readBytes()
        bench.engine().use { engine ->
            assertEquals(Problem.NewerDatabase(999, supported(engine)), engine.problem { vehicles() })
        }
        assertTrue(bytes.contentEquals(bench.file().readBytes()))
    }

    @Test
    fun aDamagedRecordIsSetAside() {
        bench.engine().use { it.get { addDemo("a") } }
        val whole = bench.file().readBytes()
        bench.file().writeBytes(whole.copyOf(whole.size / 2))
        bench.engine().use { engine ->
            assertTrue(engine.get { notices() }.isNotEmpty())
            assertTrue(File(bench.file().parentFile, "damaged").walk().any { it.name == bench.file().name })
            engine.get { vehicles() }
        }
    }

    @Test
    fun aPathThatIsNoFileIsAProblemAndNoCrash() = Bench(File.createTempFile("stowfast", "d").parentFile).engine().use { engine ->
        val problem = engine.problem { vehicles() }
        assertTrue("$problem", problem is Problem.Internal || problem is Problem.InvalidInput)
    }

    private fun supported(engine: VehicleEngine): Long = (engine.problem { demos() } as Problem.NewerDatabase).supported

    private fun <T> VehicleEngine.problem(call: suspend VehicleEngine.() -> Outcome<T>): Problem =
        when (val outcome = runBlocking { call() }) {
            is Outcome.Done -> throw AssertionError("did not fail: ${outcome.value}")
            is Outcome.Failed -> outcome.problem
        }

    private companion object {
        /** Where SQLite's file format keeps `user_version`. */
        const val USER_VERSION_AT = 60L
    }
}
