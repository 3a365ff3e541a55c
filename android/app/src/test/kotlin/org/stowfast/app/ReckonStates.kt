package org.stowfast.app

import androidx.compose.foundation.lazy.rememberLazyListState
import androidx.compose.runtime.Composable
import org.stowfast.app.questions.QuestionsScreen
import org.stowfast.app.questions.QuestionsState
import org.stowfast.app.reckon.ReckonScreen
import org.stowfast.app.reckon.ReckonState
import org.stowfast.app.reckon.ReckonWays
import org.stowfast.app.ui.Ways
import org.stowfast.engine.Pick
import org.stowfast.engine.Problem

/** Questions that are answered with numbers. */
object ReckonStates {
    fun screens(ways: Ways): Map<String, @Composable () -> Unit> = mapOf(
        "questions" to { questions(QuestionsState(scene.get { reckonings() }, problem = null), ways) },
        "questions-wait" to { questions(QuestionsState(rows = null, problem = null), ways) },
        "reckon" to { screen(asked("wind", Pick("beaufort", "b5")), ways) },
        "reckon-unasked" to { screen(asked("wind"), ways) },
        "reckon-typing" to { asked("wind", Pick("beaufort", "b7"), Pick("gust", "21.0")).let { screen(it.copy(open = "gust"), ways, it.page?.let(::askedAt) ?: 0) } },
        "reckon-refused" to {
            val problem = scene.problem { reckon("wind", listOf(Pick("gust", "900"))) }
            screen(ReckonState(emptyList(), open = "gust", scene.get { reckon("wind", emptyList()) }, problem), ways)
        },
        "reckon-wait" to { screen(ReckonState(emptyList(), open = null, page = null, problem = null), ways) },
        "reckon-failed" to { screen(ReckonState(emptyList(), open = null, page = null, Problem.Internal("disk I/O error")), ways) },
    )

    private val scene = Scene("c") { get { tellFigure("awning_m2", 7.5) } }

    @Composable
    private fun questions(state: QuestionsState, ways: Ways) = QuestionsScreen(state, ways, {}) {}

    private fun asked(id: String, vararg picks: Pick) = ReckonState(picks.toList(), open = null, scene.get { reckon(id, picks.toList()) }, problem = null)

    @Composable
    private fun screen(state: ReckonState, ways: Ways, from: Int = 0) = ReckonScreen(state, ways, ReckonWays({}) {}, rememberLazyListState(from)) {}
}
