package org.stowfast.app

import androidx.compose.runtime.Composable
import org.stowfast.app.fridge.FridgeScreen
import org.stowfast.app.fridge.FridgeState
import org.stowfast.app.fridge.fullHour
import org.stowfast.app.fridge.shown
import org.stowfast.app.ui.Ways
import org.stowfast.engine.FridgePage
import org.stowfast.engine.Problem

/** What the fridge runs on, and what lies ahead of it. */
object FridgeStates {
    fun screens(ways: Ways): Map<String, @Composable () -> Unit> = mapOf(
        "fridge" to { fridge(counting, counting.get { fridge() }, ways) },
        "fridge-mains" to { fridge(mains, mains.get { fridge() }, ways) },
        "fridge-hand" to { fridge(byHand, byHand.get { fridge() }, ways) },
        "fridge-none" to { fridge(none, none.get { fridge() }, ways) },
        "fridge-ahead" to { fridge(gas, ahead(gas.get { fridge() }), ways) },
        "fridge-leave" to { fridge(gas, ahead(gas.leaving(30)), ways) },
        "fridge-late" to { fridge(gas, ahead(gas.leaving(4)), ways) },
        "departure" to { departure(gas.leaving(30), hours = 30, problem = null, ways) },
        "departure-over" to { departure(gas.get { fridge() }, hours = -3, gas.problem { fridgeFor(gas.nowMs - Scene.HOUR_MS) }, ways) },
    )

    private val mains = Scene()
    private val none = Scene("b")

    /** The engine was switched off five minutes ago: it waits before it lights gas. */
    private val counting = Scene {
        report("lead.post_end" to "out", "lead.vehicle_end" to "out", "pitch.flame" to "allowed", "engine.running" to "on")
        pass(Scene.HOUR_MS)
        report("engine.running" to "off")
        pass(5 * Scene.MINUTE_MS + 27_000)
    }
    /** Set to gas, with mains there. */
    private val byHand = Scene { report("fridge.selector" to "gas") }

    /** Off, with gas to run it on. */
    private val gas = Scene { report("fridge.selector" to "off", "lead.post_end" to "out", "pitch.flame" to "allowed") }

    private fun Scene.leaving(hours: Int): FridgePage? = get { fridgeFor(fullHour(nowMs + hours * Scene.HOUR_MS)) }

    /** Only what lies ahead, as when one has scrolled down to it. */
    private fun ahead(page: FridgePage?): FridgePage? =
        page?.copy(byHand = null, nextText = null, why = emptyList(), cautions = emptyList(), choices = emptyList())

    @Composable
    private fun fridge(scene: Scene, page: FridgePage?, ways: Ways) =
        FridgeScreen(FridgeState(page, answered = true, picking = null, nowUtcMs = scene.nowMs, problem = null), ways, {}) {}

    @Composable
    private fun departure(page: FridgePage?, hours: Int, problem: Problem?, ways: Ways) =
        FridgeScreen(FridgeState(page, answered = true, shown(fullHour(gas.nowMs + hours * Scene.HOUR_MS)), gas.nowMs, problem), ways, {}) {}
}
