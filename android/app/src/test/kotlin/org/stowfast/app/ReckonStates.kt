package org.stowfast.app

import androidx.compose.runtime.Composable
import org.stowfast.app.questions.QuestionsScreen
import org.stowfast.app.questions.QuestionsState
import org.stowfast.app.reckon.ReckonScreen
import org.stowfast.app.reckon.ReckonState
import org.stowfast.app.reckon.ReckonWays
import org.stowfast.app.ui.Ways
import org.stowfast.engine.GaugeUnit
import org.stowfast.engine.Pick
import org.stowfast.engine.Problem

/** Questions that are answered with numbers. */
object ReckonStates {
    fun screens(ways: Ways): Map<String, @Composable () -> Unit> = mapOf(
        "questions" to { questions(QuestionsState(scene.get { reckonings() }, problem = null), ways) },
        "questions-wait" to { questions(QuestionsState(rows = null, problem = null), ways) },
        "reckon" to { reckon("wind", listOf(Pick("beaufort", "b5")), open = null, ways) },
        "reckon-unasked" to { reckon("wind", emptyList(), open = null, ways) },
        "reckon-typing" to { reckon("wind", listOf(Pick("beaufort", "b7"), Pick("gust", "21.0")), open = "gust", ways) },
        "reckon-supply" to { reckon("supply", listOf(Pick("post", "a6")), open = null, ways) },
        "reckon-frost" to { reckon("frost", listOf(Pick("low", "-6"), Pick("outside", "3")), open = null, ways) },
        "reckon-boiler" to { reckon("boiler", listOf(Pick("cold", "10"), Pick("source", "mixed")), open = null, ways) },
        "reckon-power" to { reckon("power", listOf(Pick("charge", "80"), Pick("latitude", "48"), Pick("sky", "broken")), open = null, ways) },
        "reckon-first" to { reckon("first", emptyList(), open = null, ways) },
        "reckon-level" to { reckon("level", listOf(Pick("pitch", "1.5"), Pick("roll", "-0.8")), open = null, ways) },
        "reckon-refused" to {
            val problem = scene.problem { reckon("wind", listOf(Pick("gust", "900"))) }
            screen(ReckonState(emptyList(), open = "gust", scene.get { reckon("wind", emptyList()) }, problem), ways)
        },
        "reckon-wait" to { screen(ReckonState(emptyList(), open = null, page = null, problem = null), ways) },
        "reckon-failed" to { screen(ReckonState(emptyList(), open = null, page = null, Problem.Internal("disk I/O error")), ways) },
    )

    private val scene = Scene("c") {
        val said = mapOf("awning_m2" to 7.5, "kettle_w" to 1800.0, "kettle_min" to 10.0, "people" to 2.0, "showers_a_day" to 1.0, "shower_l" to 12.0)
        for ((figure, value) in said) get { tellFigure(figure, value) }
        report("pitch.ground" to "level")
        get { enterReading("fresh", GaugeUnit.PERCENT, 60.0) }
    }

    @Composable
    private fun questions(state: QuestionsState, ways: Ways) = QuestionsScreen(state, ways, {}) {}

    @Composable
    private fun reckon(id: String, picks: List<Pick>, open: String?, ways: Ways) =
        screen(ReckonState(picks, open, scene.get { reckon(id, picks) }, problem = null), ways)

    @Composable
    private fun screen(state: ReckonState, ways: Ways) = ReckonScreen(state, ways, ReckonWays({}) {}) {}
}
