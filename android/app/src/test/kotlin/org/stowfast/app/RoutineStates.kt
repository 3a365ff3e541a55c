package org.stowfast.app

import androidx.compose.runtime.Composable
import org.stowfast.app.preview.PreviewScreen
import org.stowfast.app.preview.PreviewState
import org.stowfast.app.routine.Ask
import org.stowfast.app.routine.Asking
import org.stowfast.app.routine.MoreSheet
import org.stowfast.app.routine.RoutineScreen
import org.stowfast.app.routine.RoutineState
import org.stowfast.app.routine.RoutineWays
import org.stowfast.app.shared.SharedScreen
import org.stowfast.app.shared.SharedState
import org.stowfast.app.target.TargetScreen
import org.stowfast.app.target.TargetState
import org.stowfast.app.ui.Ways
import org.stowfast.engine.Odd
import org.stowfast.engine.OddCannot
import org.stowfast.engine.OddSeen
import org.stowfast.engine.StepRow

/** A routine, the way to it, and the same for two. */
object RoutineStates {
    private const val ROAD = "ready_to_drive"

    fun screens(ways: Ways): Map<String, @Composable () -> Unit> = mapOf(
        "routine-hazard" to { routine(valve, ways) },
        "routine-look" to { routine(look, ways) },
        "routine-wait" to { routine(wait, ways) },
        "routine-wait-more" to {
            routine(wait, ways)
            MoreSheet(wait.step(), {}, {}, {}, {})
        },
        "routine-list" to { routine(list, ways) },
        "routine-list-odd" to { routine(list, ways, odd = mapOf("pump.switch_off" to OddCannot("the knob is off"), "fridge.selector.look" to OddSeen("gas"))) },
        "routine-list-more" to {
            routine(list, ways)
            MoreSheet(null, {}, {}, {}, {})
        },
        "routine-line" to { Asking(Ask.SEEN, list.routine().steps.first { it.id == "fridge.selector.look" }, listed = true, OddSeen("gas"), ways, {}, {}, {}) },
        "routine-part-end" to { routine(partEnd, ways) },
        "routine-paused" to { routine(paused, ways) },
        "routine-finished" to { routine(finished, ways) },
        "routine-sought" to { routine(valve, ways, sought = "lead.unplug") },
        "routine-impossible" to { routine(stuck, ways) },
        "routine-paused-stuck" to { routine(stuckPaused, ways) },
        "routine-more" to {
            routine(valve, ways)
            MoreSheet(valve.step(), {}, {}, {}, {})
        },
        "routine-leave" to { asked(Ask.LEAVE, valve, ways) },
        "routine-note" to { asked(Ask.NOTE, valve, ways) },
        "routine-end" to { asked(Ask.END, valve, ways) },
        "routine-other" to { asked(Ask.SEEN, look, ways) },
        "routine-cannot" to { asked(Ask.CANNOT, valve, ways) },
        "targets" to { TargetScreen(TargetState(look.get { targets() }, open = null, emptySet(), problem = null), ways, {}) {} },
        "targets-parts" to { TargetScreen(TargetState(look.get { targets() }.filter { it.parts.isNotEmpty() }, open = "serviced", setOf("waste"), problem = null), ways, {}) {} },
        "preview" to { preview(arrived, ROAD, ways) },
        "preview-variants" to { preview(large, ROAD, ways, picked = large.get { preview(ROAD) }.variants.first { !it.chosen }.id) },
        "preview-done" to { preview(ready, ROAD, ways) },
        "preview-wait" to { PreviewScreen(PreviewState(null, emptyList(), null, null, begun = false, problem = null), ways, {}) {} },
        "shared" to { shared(look, who = 1, ways) },
        "shared-one" to { shared(last, who = 0, ways) },
    )

    private val valve = Scene.leaving(at = "gas_left.shut")
    private val look = Scene.leaving(at = "roof_lounge.leaf.look")
    private val list = Scene.leaving(at = "fridge.selector.look")
    private val last = Scene.leaving(at = "walk_round.walk")
    private val ready = Scene.ready()
    private val large = Scene("c")

    /** With a routine under way that another one would end. */
    private val arrived = Scene { get { openRun("serviced") } }
    private val wait = Scene {
        get { openRun("battery_read") }
        confirmUntil { routine().waitsS != null }
    }
    private val partEnd = Scene {
        get { openRun("laid_up_winter") }
        confirmUntil { routine().partEnd != null }
    }
    private val paused = Scene {
        get { openRun(ROAD) }
        repeat(3) { confirm() }
        get { pause() }
    }
    private val finished = Scene {
        get { openRun(ROAD) }
        confirmUntil { routine().finished }
    }

    /** Nobody gets the roof light shut, and the routine goes on four days later. */
    private val stuck = Scene {
        get { openRun(ROAD) }
        confirmUntil { "roof_bed.shut" in gesture().steps }
        get { cannot("roof_bed.shut", "bent hinge") }
        get { pause() }
        pass(4 * Scene.DAY_MS)
        get { resume() }
    }

    private val stuckPaused = Scene {
        get { openRun(ROAD) }
        get { cannot("roof_bed.shut", "bent hinge") }
        get { pause() }
    }

    private fun Scene.step(): StepRow = gesture().steps.single().let { id -> routine().steps.first { it.id == id } }

    @Composable
    private fun routine(scene: Scene, ways: Ways, sought: String? = null, odd: Map<String, Odd> = emptyMap()) =
        RoutineScreen(RoutineState(scene.routine(), answered = true, odd = odd, confirmed = emptyList(), noted = null, closed = false, problem = null), ways, sought, RoutineWays({}, {}, {})) {}

    @Composable
    private fun asked(ask: Ask, scene: Scene, ways: Ways) = Asking(ask, scene.step(), listed = false, null, ways, {}, {}, {})

    @Composable
    private fun preview(scene: Scene, target: String, ways: Ways, picked: String? = null) {
        val whole = scene.get { preview(target) }
        val way = picked?.let { scene.get { preview(it) } } ?: whole
        PreviewScreen(PreviewState(way, whole.variants, picked, scene.get { nowPage() }.run, begun = false, problem = null), ways, {}) {}
    }

    @Composable
    private fun shared(scene: Scene, who: Int, ways: Ways) = SharedScreen(SharedState(scene.get { shared(ROAD) }, who, problem = null), ways) {}
}
