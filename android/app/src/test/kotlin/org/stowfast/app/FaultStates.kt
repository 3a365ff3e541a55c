package org.stowfast.app

import androidx.compose.runtime.Composable
import org.stowfast.app.fault.FaultScreen
import org.stowfast.app.fault.FaultState
import org.stowfast.app.fault.FaultWays
import org.stowfast.app.faults.FaultsScreen
import org.stowfast.app.faults.FaultsState
import org.stowfast.app.ui.Ways
import org.stowfast.engine.FaultPage
import org.stowfast.engine.FaultRow
import org.stowfast.engine.Problem
import org.stowfast.engine.VehicleEngine

/** The search for a cause. Each page is what the real engine answers for an invented vehicle. */
object FaultStates {
    fun screens(ways: Ways): Map<String, @Composable () -> Unit> = mapOf(
        "faults" to { FaultsScreen(FaultsState(begun, problem = null), ways, {}) {} },
        "faults-none" to { FaultsScreen(FaultsState(emptyList(), problem = null), ways, {}) {} },
        "faults-wait" to { FaultsScreen(FaultsState(rows = null, problem = null), ways, {}) {} },
        "fault" to { fault(asking, ways) },
        "fault-many" to { fault(many, ways) },
        "fault-danger" to { fault(danger, ways) },
        "fault-contrary" to { fault(contrary, ways) },
        "fault-known" to { fault(known, ways) },
        "fault-found" to { fault(found, ways) },
        "fault-normal" to { fault(normal, ways) },
        "fault-helper" to { fault(helper, ways) },
        "fault-mended" to { fault(mended, ways) },
        "fault-emergency" to { fault(emergency, ways) },
        "fault-wait" to { FaultScreen(FaultState(page = null, answers = 0, problem = null), ways, nowhere) {} },
        "fault-gone" to { FaultScreen(FaultState(page = null, answers = 0, Problem.NotFound("fault", "sail_torn")), ways, nowhere) {} },
    )

    private val nowhere = FaultWays({}, {}, {}, {}, {})

    @Composable
    private fun fault(page: FaultPage, ways: Ways) = FaultScreen(FaultState(page, answers = 0, problem = null), ways, nowhere) {}

    private val begun: List<FaultRow> by lazy {
        with("c") {
            get { answerFault("pump_never_stops", "taps", "shut") }
            get { report("lead.post_end", "out") }
            get { faults() }
        }
    }

    private val asking by lazy { page("a", "fridge_does_not_cool", "set" to "gas", "level" to "level") }
    private val many by lazy { page("a", "fridge_does_not_cool") }
    private val danger by lazy { search("a", "no_12v") { it.question?.hazard == true } }
    private val contrary by lazy { page("a", "fridge_does_not_cool", "set" to "gas", "weigh" to "empty", "door" to "gap") }
    private val known by lazy {
        with("a") {
            get { report("lead.vehicle_end", "out") }
            get { report("lead.post_end", "out") }
            get { fault("no_mains_inside") }
        }
    }
    private val found by lazy {
        with("a") {
            get { report("boiler.lamp", "red") }
            get { report("boiler.heat", "off") }
            get { answerFault("no_hot_water", "cold", "yes") }
            get { fault("no_hot_water") }
        }
    }
    private val normal by lazy { page("b", "lights_flicker", "when" to "heater") }
    private val helper by lazy { search("a", "pump_does_not_run") { it.question == null } }
    private val mended by lazy { page("a", "pump_never_stops", "taps" to "open", "cause.tap_open" to "mended") }
    private val emergency by lazy {
        with("c") {
            get { answerFault("pump_never_stops", "taps", "shut") }
            get { report("co_alarm.sound", "sounding") }
            get { fault("pump_never_stops") }
        }
    }

    private fun <T> with(demo: String, does: VehicleEngine.() -> T): T = Bench().engine().use {
        it.get { addDemo(demo) }
        it.does()
    }

    private fun page(demo: String, fault: String, vararg said: Pair<String, String>): FaultPage = with(demo) {
        for ((asked, answer) in said) get { answerFault(fault, asked, answer) }
        get { fault(fault) }
    }

    /** All is as it should be, question by question, until the page shows what is sought. */
    private fun search(demo: String, fault: String, sought: (FaultPage) -> Boolean): FaultPage = with(demo) {
        generateSequence(get { fault(fault) }) { page ->
            val row = page.question ?: throw AssertionError("$fault ended before it was seen")
            get { answerFault(fault, row.id, row.answers[row.answers.size - 2].id) }
            get { fault(fault) }
        }.first(sought)
    }
}
