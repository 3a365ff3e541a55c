package org.stowfast.app

import androidx.compose.runtime.Composable
import org.stowfast.app.drivecard.DriveCardScreen
import org.stowfast.app.drivecard.DriveCardState
import org.stowfast.app.now.Blocker
import org.stowfast.app.now.BlockerPage
import org.stowfast.app.now.DrivePage
import org.stowfast.app.now.NowScreen
import org.stowfast.app.now.NowState
import org.stowfast.app.now.NowWays
import org.stowfast.app.ui.Ways
import org.stowfast.engine.GaugeUnit
import org.stowfast.engine.NowPage
import org.stowfast.engine.Problem
import org.stowfast.engine.stepIn

/** The first page, what is in the way, and the last page before the road. */
object NowStates {
    private const val ROAD = "ready_to_drive"
    private val home = Ways(back = null, emergency = {})

    fun screens(ways: Ways): Map<String, @Composable () -> Unit> = mapOf(
        "now-blocked" to { now(onTheWay) },
        "now-unknown" to { now(unknown) },
        "now-clear" to { now(ready) },
        "now-moving" to { now(driven) },
        "now-moving-wrong" to { now(drivenWrong) },
        "now-clear-run" to { now(finished) },
        "now-paused" to { now(stuck) },
        "now-many" to { now(many) },
        "now-laid-up" to { now(laidUp) },
        "now-laid-up-seen" to { now(laidUpWell) },
        "now-laid-up-half" to { now(laidUpHalf) },
        "now-emergency" to { now(alarm) },
        "now-remind" to { now(soonEmpty) },
        "drive" to { drive(ready, ways) },
        "drive-anyway" to { drive(bare, ways) },
        "drive-card" to { DriveCardScreen(DriveCardState(ready.get { driveCard() }, problem = null), ways) {} },
        "drive-card-bare" to { DriveCardScreen(DriveCardState(bare.get { driveCard() }, none.problem { driveCard() }), ways) {} },
        "blocker" to { blocker(morning, "step.step", ways) },
        "blocker-not-yet" to { blocker(onTheWay, "lead.vehicle_end", ways) },
        "blocker-stuck" to { blocker(stuck, "roof_bed.leaf", ways) },
        "blocker-laid-up" to { blocker(laidUp, "fresh.level", ways, "laid_up_winter") },
    )

    fun failed(problem: Problem): @Composable () -> Unit = { NowScreen(state(null, 0).copy(problem = problem), home, NowWays({}, {}), {}) }

    private val morning = Scene()
    private val none = Scene(vehicle = null)
    private val onTheWay = Scene.leaving(at = "gas_left.shut")
    private val ready = Scene.ready()
    private val driven = Scene.driven()
    private val drivenWrong = Scene {
        carryOut(ROAD)
        get { driveOff() }
        report("step.step" to "out", "roof_bed.leaf" to "ajar")
    }
    private val unknown = Scene {
        carryOut(ROAD)
        clockBehind()
    }
    private val finished = Scene {
        get { openRun(ROAD) }
        confirmUntil { routine().finished }
    }
    private val alarm = Scene("c") { report("co_alarm.sound" to "sounding") }
    private val many = Scene("c")

    /** Two readings a day apart: the fresh tank may be empty before the next day is over. */
    private val soonEmpty = Scene {
        get { enterReading("fresh", GaugeUnit.LAMPS, 4.0) }
        pass(Scene.DAY_MS)
        get { enterReading("fresh", GaugeUnit.LAMPS, 2.0) }
    }
    private val laidUpHalf = Scene {
        get { openRun("laid_up_winter") }
        get { closeRun() }
        pass(Scene.DAY_MS)
    }
    private val laidUp = Scene {
        report("pitch.purpose" to "laid_up")
        pass(100 * Scene.DAY_MS)
    }
    private val laidUpWell = Scene("b") {
        report("pitch.waste_point" to "here", "pitch.toilet_point" to "here", "pitch.water" to "tap")
        carryOut("serviced")
        carryOut("laid_up_winter")
        pass(30 * Scene.DAY_MS)
    }
    private val stuck = Scene {
        get { openRun(ROAD) }
        get { cannot("roof_bed.shut", "bent hinge") }
        get { pause() }
    }

    /** Of a vehicle whose pack has no measures. */
    private val bare = Scene(vehicle = null) {
        val pack = DEMO_PACK.replace(Regex("(?s)\\[measures].*?(?=\\n\\[)"), "").replace(Regex("(?s)\\[\\[axle]].*?(?=\\n\\[)"), "")
        get { addPack(pack, "van.toml") }
    }

    private fun state(page: NowPage?, nowMs: Long) = NowState(
        page, vehicleMissing = false, road = ROAD, leaving = false, card = null, opened = null, nowUtcMs = nowMs, running = false, problem = null,
    )

    @Composable
    private fun now(scene: Scene) = NowScreen(state(scene.get { nowPage() }, scene.nowMs), home, NowWays({}, {}), {})

    @Composable
    private fun drive(scene: Scene, ways: Ways) = DrivePage(scene.get { nowPage() }, scene.get { driveCard() }, ways) {}

    @Composable
    private fun blocker(scene: Scene, variable: String, ways: Ways, target: String = ROAD) {
        val page = scene.get { nowPage() }
        val items = if (target == ROAD) page.items else page.stands?.items.orEmpty()
        val item = items.first { it.variable == variable }
        val way = scene.get { preview(target) }
        val step = item.stepIn(way.steps)
        BlockerPage(Blocker(item, target, way, step, step?.let { scene.get { refusals(it.id) } }.orEmpty()), page.run, ways) {}
    }
}
