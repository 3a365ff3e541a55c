package org.stowfast.app

import androidx.compose.runtime.Composable
import org.stowfast.app.figures.FiguresScreen
import org.stowfast.app.figures.FiguresState
import org.stowfast.app.stay.StayScreen
import org.stowfast.app.stay.StayState
import org.stowfast.app.stay.StayWays
import org.stowfast.app.ui.Ways
import org.stowfast.engine.GaugeUnit
import org.stowfast.engine.Problem

/** What people say that they use, and what comes of it for a stay without services. */
object StayStates {
    fun screens(ways: Ways): Map<String, @Composable () -> Unit> = mapOf(
        "figures" to { figures(FiguresState(told.get { figures() }, open = null, problem = null), ways) },
        "figures-open" to { figures(FiguresState(told.get { figures() }, open = "people", problem = null), ways) },
        "figures-litres" to { figures(FiguresState(told.get { figures() }, open = "shower_l", problem = null), ways) },
        "figures-unknown" to { figures(FiguresState(unread.get { figures() }, open = null, problem = null), ways) },
        "figures-refused" to { figures(FiguresState(unread.get { figures() }, open = "people", unread.problem { tellFigure("people", 13.0) }), ways) },
        "figures-none" to { figures(FiguresState(rows = emptyList(), open = null, problem = null), ways) },
        "figures-wait" to { figures(FiguresState(rows = null, open = null, problem = null), ways) },
        "stay" to { stay(told, nights = 3, ways) },
        "stay-long" to { stay(told, nights = 14, ways) },
        "stay-short" to { stay(full, nights = 1, ways) },
        "stay-unknown" to { stay(unread, nights = 2, ways) },
        "stay-none" to { stay(StayState(nights = 3, unread.get { stay(3) }.copy(rows = emptyList()), problem = null), ways) },
        "stay-wait" to { stay(StayState(nights = 3, page = null, problem = null), ways) },
        "stay-failed" to { stay(StayState(nights = 3, page = null, Problem.Internal("disk I/O error")), ways) },
    )

    private val unread = Scene()
    private val told = Scene("c") {
        val said = mapOf("people" to 2.0, "showers_a_day" to 2.0, "shower_l" to 15.0, "flushes_a_day" to 4.0, "flush_l" to 0.3)
        for ((figure, value) in said) get { tellFigure(figure, value) }
        report("pitch.ground" to "level")
        get { enterReading("fresh", GaugeUnit.PERCENT, 60.0) }
    }

    /** Water and waste hold, but the gas and the battery were never read. */
    private val full = Scene {
        get { tellFigure("people", 2.0) }
        report("pitch.ground" to "level", "fresh.power" to "on", "waste.level" to "empty")
        get { enterReading("fresh", GaugeUnit.LAMPS, 4.0) }
    }

    @Composable
    private fun figures(state: FiguresState, ways: Ways) = FiguresScreen(state, ways) {}

    @Composable
    private fun stay(scene: Scene, nights: Long, ways: Ways) = stay(StayState(nights, scene.get { stay(nights) }, problem = null), ways)

    @Composable
    private fun stay(state: StayState, ways: Ways) = StayScreen(state, ways, StayWays({}, {})) {}
}
