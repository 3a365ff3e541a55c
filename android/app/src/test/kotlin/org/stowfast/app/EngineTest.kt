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
import org.stowfast.engine.HitKind
import org.stowfast.engine.HitRow
import org.stowfast.engine.Line
import org.stowfast.engine.Mark
import org.stowfast.engine.OrderExact
import org.stowfast.engine.Outcome
import org.stowfast.engine.Pick
import org.stowfast.engine.Problem
import org.stowfast.engine.Shown
import org.stowfast.engine.StepKind
import org.stowfast.engine.VehicleEngine
import org.stowfast.engine.VerdictKind
import org.stowfast.engine.stepIn
import org.stowfast.ffi.EngineInterface
import java.io.File
import java.io.RandomAccessFile
import java.lang.reflect.Proxy

/** The generated Kotlin against the real library: every call once, and every problem that can be brought about. */
@RunWith(RobolectricTestRunner::class)
@Config(sdk = [34], application = android.app.Application::class)
class EngineTest {
    private val bench = Bench()

    @Test
    fun everyCallAnswers() = bench.engine().use { real ->
        val called = mutableSetOf<String>()
        val engine = recorded(real, called)
        assertEquals(emptyList<String>(), engine.get { notices() })
        val demo = engine.get { demos() }.first()
        val first = engine.get { addDemo(demo.id) }
        val second = engine.get { addPack(DEMO_PACK.replace("Wren, a coach-built for two", "Robin"), "pack.toml") }
        assertEquals(listOf(first, second), engine.get { vehicles() }.map { it.id })
        val mended = engine.get { replacePack(second, DEMO_PACK.replace("Wren, a coach-built for two", "Robin"), "mended.toml") }
        assertEquals(1, mended.entries.size)
        engine.get { chooseVehicle(first) }
        assertTrue(engine.get { targets() }.any { it.road })
        assertEquals(VerdictKind.BLOCKED, engine.get { nowPage() }.verdict)
        routine(engine)
        engine.get { report("pump.power", "off") }
        val leave = engine.get { fridge() }?.ahead?.firstNotNullOfOrNull { it.leave }?.choicesUtcMs?.last() ?: engine.utcMs() + 1
        assertNotNull(engine.get { fridgeFor(leave) })
        assertTrue(engine.problem { fridgeFor(engine.utcMs()) } is Problem.InvalidInput || leave == engine.utcMs() + 1)
        assertEquals("2.89 m", engine.get { driveCard() }.height.text)
        engine.get { setFridge("gas") }
        val gauge = engine.get { gauges() }.first { it.choices.isNotEmpty() }
        engine.get { enterReading(gauge.id, gauge.unit, gauge.choices.first().value) }
        assertTrue(engine.get { log(5) }.size == 5)
        reserves(engine, gauge.id)
        stay(engine)
        reckon(engine)
        photo(engine)
        redAndCards(engine)
        faults(engine)
        everywhere(engine)
        val kept = engine.get { exportText() }
        assertEquals(emptyList<Long>(), engine.get { importText(kept, "kept.json") }.entries)

        val exported = EngineInterface::class.java.methods.map { it.name }.toSet()
        assertEquals("exported and not called", emptySet<String>(), exported - called)
    }

    private fun routine(engine: VehicleEngine) {
        assertEquals(null, engine.get { routine() })
        val way = engine.get { preview("ready_to_drive") }
        assertEquals(OrderExact, way.proof)
        assertEquals(emptyList<String>(), engine.get { refusals(way.steps.first().id) })
        assertTrue(engine.get { refusals("lead.unplug") }.isNotEmpty())

        engine.get { openRun("ready_to_drive") }
        val plan = engine.get { routine() } ?: throw AssertionError("no routine")
        assertEquals(way.steps, plan.steps)
        val move = plan.steps.first { it.kind == StepKind.MOVE }
        val look = plan.steps.first { it.kind == StepKind.LOOK }
        val ticked = engine.get { tick(move.id) }.entries.last()
        engine.get { look(look.id, look.choices.last().id) }
        val listed = engine.get { confirm(listOf(Line(look.id, null), Line(move.id, null))) }.entries
        assertEquals(listed.size, engine.get { takeBack(listed) }.entries.size)
        assertTrue(engine.problem { takeBack(listed) } is Problem.Conflict)
        engine.get { unmark(ticked) }
        engine.get { cannot(move.id, "stiff") }
        engine.get { clearStuck(engine.get { routine() }?.stuck.orEmpty().single().entry) }
        engine.get { leftAnyway(move.id, "late") }
        assertTrue(engine.get { routine() }?.stuck.orEmpty().single().text.contains("late"))
        engine.get { note("ask about the pump") }
        assertTrue(engine.get { log(1) }.single().text.contains("ask about the pump"))
        engine.get { pause() }
        assertEquals(true, engine.get { routine() }?.run?.paused)
        engine.get { resume() }
        assertEquals(true, engine.get { routine() }?.resumedFromPause)
        engine.get { closeRun() }
    }

    /** What shows red is reported as it is offered, leads to a card, and the card back to it. */
    private fun reserves(engine: VehicleEngine, gauge: String) {
        val before = engine.get { reserves() }.rows.first { it.id == gauge }
        assertNotNull(before.seenText)
        assertEquals("metric", engine.get { units() })
        engine.get { setUnits("imperial") }
        assertEquals("imperial", engine.get { units() })
        assertTrue(before.betweenText != engine.get { reserves() }.rows.first { it.id == gauge }.betweenText)
        engine.get { setUnits("metric") }
        assertTrue(engine.problem { setUnits("cubits") } is Problem.InvalidInput)
    }

    /** What people tell of themselves, and what comes of it for a stay. */
    private fun photo(engine: VehicleEngine) {
        assertTrue(engine.get { photoLimits() }.bytes > 0)
        assertEquals(null, engine.get { photo("boiler") })
        engine.get { setPhoto("boiler", Photographs.door) }
        assertTrue(engine.get { photo("boiler") } != null)
        engine.get { removePhoto("boiler") }
        assertEquals(null, engine.get { photo("boiler") })
        engine.get { setRemindH(12) }
        assertEquals(12L, engine.get { remindChoices() }.single { it.chosen }.hours)
    }

    private fun reckon(engine: VehicleEngine) {
        assertTrue(engine.get { reckonings() }.any { it.id == "wind" })
        assertEquals(null, engine.get { reckon("wind", emptyList()) }.mark)
        assertEquals(Mark.WRONG, engine.get { reckon("wind", listOf(Pick("beaufort", "b9"))) }.mark)
        assertTrue(engine.problem { reckon("tide", emptyList()) } is Problem.NotFound)
        val rest = engine.get { level() }.use { it.feel(0.0, 0.1, 9.8).rest }
        engine.get { setLevel(rest) }
        assertEquals(Mark.FINE, engine.get { level() }.use { it.feel(0.0, 0.1, 9.8).mark })
    }

    private fun stay(engine: VehicleEngine) {
        assertEquals(null, engine.get { figures() }.single { it.id == "people" }.value)
        val before = engine.get { stay(3) }
        engine.get { tellFigure("people", 2.0) }
        assertEquals(2.0, engine.get { figures() }.single { it.id == "people" }.value)
        val after = engine.get { stay(3) }
        assertEquals(3L, after.nights)
        assertTrue("${after.rows}", after.rows.any { it.doText != null && it.holds != null } && after != before)
        engine.get { tellFigure("people", null) }
        assertEquals(before, engine.get { stay(3) })
        assertTrue(engine.problem { tellFigure("people", 0.0) } is Problem.InvalidInput)
        assertEquals(Problem.NotFound("figure", "guests"), engine.problem { tellFigure("guests", 1.0) })
        assertTrue(engine.problem { stay(0) } is Problem.InvalidInput)
    }

    private fun redAndCards(engine: VehicleEngine) {
        val fresh = engine.get { alerts() }.first { it.id == "fresh.empty" }
        assertTrue("${fresh.shown}", fresh.shown != Shown.YES)
        val tapped = fresh.report ?: throw AssertionError("no report")
        engine.get { report(tapped.variable, tapped.setting) }
        assertEquals(fresh.id, engine.get { alerts() }.first().id)
        val page = engine.get { alert(fresh.id) }
        assertEquals(Shown.YES, page.alert.shown)
        assertTrue(page.meanings.first().doNow.isNotEmpty())
        val card = engine.get { card(page.cards.first().id) }
        assertTrue(card.card in engine.get { cards() })
        for (row in card.steps) assertEquals(row.refused, engine.get { may(row.id) }.against.isNotEmpty())
        assertTrue(page.faults.any { it.id == "pump_does_not_run" } && card.faults.any { it.id == "pump_does_not_run" })
        assertEquals(HitKind.CARD to card.card.id, engine.get { find(card.card.title) }.first().let { it.kind to it.id })
        assertEquals(emptyList<HitRow>(), engine.get { find("\uD83D") })
        assertTrue(card.alerts.any { it.id == fresh.id } && card.sections.all { it.lines.isNotEmpty() })
    }

    /** A search is begun, answered, undone, ended and begun anew. */
    private fun faults(engine: VehicleEngine) {
        val id = engine.get { faults() }.first { row -> engine.get { fault(row.id) }.question != null }.id
        val before = engine.get { fault(id) }
        val row = before.question ?: throw AssertionError("nothing is asked")
        engine.get { answerFault(id, row.id, row.answers.first().id) }
        assertEquals(1, engine.get { fault(id) }.fault.saidCount)
        engine.get { undoFault(id) }
        assertEquals(before.likely, engine.get { fault(id) }.likely)
        engine.get { answerFault(id, row.id, "cannot") }
        engine.get { restartFault(id) }
        assertEquals(0, engine.get { fault(id) }.fault.saidCount)
    }

    /** Places, roads, and what there is to know of all that the vehicle has. */
    private fun everywhere(engine: VehicleEngine) {
        engine.get { arriveAt(engine.get { places() }.first { it.id == "ferry" }.id) }
        assertTrue(engine.get { nowPage() }.placeTitle.contains("Flames: forbidden"))
        engine.get { driveOff() }
        assertTrue(engine.get { nowPage() }.moving)
        engine.get { arriveAtFile("stowfast_place = 1\ntitle = \"A field\"\n[facts]\n\"post.supply\" = [\"none\"]\n", "field.toml") }
        assertEquals("Mains at the post: not here", engine.get { nowPage() }.placeTitle)
        engine.get { driveOff() }
        engine.get { arrive() }
        engine.get { tellCountry("de") }
        engine.get { tellCarrier("ferry") }
        assertTrue(engine.get { rules() }.first().told)

        val moves = engine.get { steps() }
        assertTrue(moves.any { it.hazard } && moves.none { it.kind == StepKind.WAIT })
        assertEquals("Off", engine.get { things() }.first { it.variable == "pump.power" }.currentText)
        val two = engine.get { shared("ready_to_drive") }
        assertEquals(2, two.people.size)
        assertTrue(two.elapsedS < two.aloneS)
        assertTrue(engine.get { targets() }.first { it.id == "serviced" }.parts.any { it.id == "waste" })
        assertTrue(engine.get { preview("serviced/waste") }.steps.isNotEmpty())
    }

    /** [engine], with the names of what was called on it written to [called]. */
    private fun recorded(engine: VehicleEngine, called: MutableSet<String>): VehicleEngine {
        val types = arrayOf<Class<*>>(VehicleEngine::class.java)
        return Proxy.newProxyInstance(javaClass.classLoader, types) { _, method, arguments ->
            called += method.name
            method.invoke(engine, *arguments.orEmpty())
        } as VehicleEngine
    }

    @Test
    fun everyThingInTheWayHasItsStep() = bench.engine().use { engine ->
        engine.get { addDemo("a") }
        val steps = engine.get { preview("ready_to_drive") }.steps
        val items = engine.get { nowPage() }.items
        assertTrue(items.size > 10)
        assertEquals(emptyList<String>(), items.filter { it.stepIn(steps) == null }.map { it.variable })
        assertEquals("lead.unplug", items.first { it.variable == "lead.post_end" }.stepIn(steps)?.id)
        assertEquals("lead.disconnect_vehicle", items.first { it.variable == "lead.vehicle_end" }.stepIn(steps)?.id)
        assertEquals("lead.stow", items.first { it.variable == "lead.coil" }.stepIn(steps)?.id)
    }

    @Test
    fun whatIsAskedWronglyIsSaidToBeSo() = bench.engine().use { engine ->
        assertTrue(engine.problem { nowPage() } is Problem.Conflict)
        assertTrue(engine.problem { faults() } is Problem.Conflict)
        assertTrue(engine.problem { pause() } is Problem.Conflict)
        assertEquals(Problem.NotFound("demonstration", "nothing"), engine.problem { addDemo("nothing") })
        engine.get { addDemo("a") }
        assertTrue(engine.problem { pause() } is Problem.Conflict)
        assertTrue(engine.problem { tick("boiler.heat.cool_min.wait") } is Problem.Conflict)
        assertTrue(engine.problem { addPack(DEMO_PACK, "again.toml") } is Problem.Conflict)
        assertEquals(Problem.NotFound("vehicle", "99"), engine.problem { replacePack(99, DEMO_PACK, "none.toml") })
        assertEquals(Problem.InvalidInput("number of lines", "a number above 0"), engine.problem { log(0) })
        assertTrue(engine.problem { note(" ") } is Problem.InvalidInput)
        assertTrue(engine.problem { enterReading("fresh", GaugeUnit.LAMPS, -1.0) } is Problem.InvalidInput)
        assertTrue(engine.problem { openRun("nothing") } is Problem.NotFound)
        assertTrue(engine.problem { preview("nothing") } is Problem.NotFound)
        assertTrue(engine.problem { refusals("nothing") } is Problem.NotFound)
        assertEquals(Problem.NotFound("alert", "nothing"), engine.problem { alert("nothing") })
        assertEquals(Problem.NotFound("card", "nothing"), engine.problem { card("nothing") })
        assertTrue(engine.problem { leftAnyway("step.in", "") } is Problem.Conflict)
        assertEquals(Problem.NotFound("fault", "nothing"), engine.problem { fault("nothing") })
        assertEquals(Problem.NotFound("fault", "nothing"), engine.problem { restartFault("nothing") })
        assertEquals(Problem.NotFound("check", "tops"), engine.problem { answerFault("pump_never_stops", "tops", "open") })
        assertTrue(engine.problem { answerFault("pump_never_stops", "taps", "ajar") } is Problem.InvalidInput)
        assertTrue(engine.problem { undoFault("pump_never_stops") } is Problem.Conflict)
    }

    @Test
    fun aFullPhoneLosesNothing() {
        val before = bench.engine().use { engine ->
            engine.get { addDemo("a") }
            engine.get { nowPage() }
        }
        bench.damageWithNoRoom()
        bench.engine().use { engine ->
            assertEquals(Problem.StorageFull, engine.problem { nowPage() })
            bench.makeRoom()
            assertEquals(before, engine.get { nowPage() })
        }
    }

    @Test
    fun aDamagedRecordThatCannotBeSetAsideStaysWhereItIs() {
        bench.engine().use { it.get { addDemo("a") } }
        bench.cut()
        // A file stands where the folder would have to.
        File(bench.file().parentFile, "damaged").writeText("in the way")
        bench.engine().use { engine ->
            assertEquals(Problem.StorageDamaged(bench.file().path), engine.problem { vehicles() })
        }
        assertTrue(bench.file().exists())
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
    fun aBrokenExportLeavesTheRecordAlone() = bench.engine().use { engine ->
        engine.get { addDemo("a") }
        val kept = engine.get { exportText() }
        val problem = engine.problem { importText(kept.dropLast(kept.length / 2), "kept.json") }
        assertTrue("$problem", problem is Problem.BrokenPack && problem.file == "kept.json" && problem.line > 1)
        assertEquals(kept, engine.get { exportText() })
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
        bench.cut()
        bench.engine().use { engine ->
            assertTrue(engine.get { notices() }.isNotEmpty())
            assertTrue(File(bench.file().parentFile, "damaged").walk().any { it.name == bench.file().name })
            engine.get { vehicles() }
        }
    }

    @Test
    fun aPathThatCannotBeOpenedIsAProblemAndNoCrash() = Bench(File(bench.file(), "none.db")).engine().use { engine ->
        assertTrue(engine.problem { vehicles() } is Problem.Internal)
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
