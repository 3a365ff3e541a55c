package org.stowfast.app

import androidx.compose.foundation.lazy.rememberLazyListState
import androidx.compose.runtime.Composable
import org.stowfast.app.reckon.ReckonScreen
import org.stowfast.app.reckon.ReckonState
import org.stowfast.app.reckon.ReckonWays
import org.stowfast.app.ui.Ways
import org.stowfast.engine.GaugeUnit
import org.stowfast.engine.Reckoning

/** Every question of numbers, answered: from the top, or scrolled to its chart where that is not yet in sight. */
object AnswerStates {
    fun screens(ways: Ways): Map<String, @Composable () -> Unit> =
        CHARTS.associate { question -> "answer-$question-chart" to screen(question, ways, ::chartAt) } +
            (Answer.all.keys - "boiler").associate { question -> "answer-$question" to screen(question, ways) { 0 } }

    private val scene = Scene("c") {
        val figures = get { figures() }.map { it.id }.toSet()
        for (answer in Answer.all.values) {
            val said = answer.said.filter { it.first in figures }.associate { it.first to it.second.toDouble() }
            for ((figure, value) in answer.told + said) get { tellFigure(figure, value) }
        }
        report("pitch.ground" to "level")
        get { enterReading("fresh", GaugeUnit.PERCENT, 60.0) }
    }

    private fun answered(question: String): Reckoning {
        val figures = scene.get { figures() }.map { it.id }.toSet()
        return scene.get { reckon(question, Answer.all.getValue(question).picks(figures)) }
    }

    private fun screen(question: String, ways: Ways, from: (Reckoning) -> Int): @Composable () -> Unit = {
        val page = answered(question)
        ReckonScreen(ReckonState(emptyList(), open = null, page, problem = null), ways, ReckonWays({}) {}, rememberLazyListState(from(page))) {}
    }
}

private val CHARTS = listOf("frost", "boiler", "first")

/** Before the numbers stand the verdict, perhaps a way to look live, what to mind, and the way to what it was asked with. */
private fun Reckoning.before(): Int = listOfNotNull(liveText).size + cautions.size + 2

/** Where the part begins that has a chart. */
fun chartAt(page: Reckoning): Int = page.before() + page.parts.takeWhile { it.chart == null }.sumOf { 1 + it.lines.size }

/** Where on a phone it stands what an answer was asked with. */
fun askedAt(page: Reckoning): Int = page.before() + page.parts.sumOf { 1 + listOfNotNull(it.chart).size + it.lines.size } + page.gauges.size + page.missing.size
