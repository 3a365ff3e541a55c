package org.stowfast.app.reckon

import androidx.compose.foundation.Canvas
import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.foundation.layout.height
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.ui.Modifier
import androidx.compose.ui.geometry.Offset
import androidx.compose.ui.graphics.Color
import androidx.compose.ui.graphics.Path
import androidx.compose.ui.graphics.PathEffect
import androidx.compose.ui.graphics.drawscope.DrawScope
import androidx.compose.ui.graphics.drawscope.Stroke
import androidx.compose.ui.layout.Layout
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.semantics.clearAndSetSemantics
import androidx.compose.ui.semantics.contentDescription
import androidx.compose.ui.unit.Constraints
import androidx.compose.ui.unit.dp
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.grown
import org.stowfast.engine.Chart
import org.stowfast.engine.ChartPoint
import kotlin.math.roundToInt

/** A band over time, with its middle and the line that matters. The sentence below says the same. */
@Composable
internal fun ChartPanel(chart: Chart) {
    val muted = MaterialTheme.colorScheme.onSurfaceVariant
    Panel(Modifier.testTag("chart")) {
        Text(chart.title, style = MaterialTheme.typography.titleMedium)
        Text(chart.topText, style = MaterialTheme.typography.labelMedium, color = muted)
        val band = MaterialTheme.colorScheme.primary.copy(alpha = 0.25f)
        val line = MaterialTheme.colorScheme.primary
        val edge = MaterialTheme.colorScheme.outline
        val limit = MaterialTheme.colorScheme.onSurface
        Canvas(Modifier.fillMaxWidth().height(grown(160.dp)).clearAndSetSemantics { contentDescription = chart.told }) {
            drawLine(edge, Offset(0f, size.height), Offset(size.width, size.height), 1.dp.toPx())
            drawPath(outline(chart.points), band)
            drawPath(middle(chart.points), line, style = Stroke(3.dp.toPx()))
            chart.limit?.let { at -> dashed(limit, at) }
        }
        Labels(chart.points.filter { it.label.isNotEmpty() }, muted)
        Text(chart.bottomText, style = MaterialTheme.typography.labelMedium, color = muted)
        chart.limitText?.let { Text("- - - $it", style = MaterialTheme.typography.labelMedium) }
        Text(chart.told, style = MaterialTheme.typography.bodyMedium)
    }
}

/** What is written below the places of a chart, each under its own. Where letters are too large for all, some are left out. */
@Composable
private fun Labels(points: List<ChartPoint>, color: Color) {
    val write: @Composable () -> Unit = { for (point in points) Text(point.label, color = color, style = MaterialTheme.typography.labelMedium) }
    Layout(write, Modifier.fillMaxWidth().testTag("axis")) { measurables, constraints ->
        val width = constraints.maxWidth
        val texts = measurables.map { it.measure(Constraints()) }
        layout(width, texts.maxOfOrNull { it.height } ?: 0) {
            var free = 0
            for ((point, text) in points.zip(texts)) {
                val left = left(point.at, width, text.width)
                if (left < free) continue
                text.place(left, 0)
                free = left + text.width + LABEL_GAP.roundToPx()
            }
        }
    }
}

/** Where a text begins that is so wide and stands so far along, from 0 to 1, with none of it outside. */
private fun left(along: Double, width: Int, own: Int): Int = ((along * width).roundToInt() - own / 2).coerceIn(0, width - own)

private val LABEL_GAP = 6.dp

/** Where something is drawn that stands so far along and up, both from 0 to 1. */
private fun DrawScope.place(along: Double, up: Double): Offset =
    Offset((along * size.width).toFloat(), ((1.0 - up) * size.height).toFloat())

private fun DrawScope.outline(points: List<ChartPoint>): Path {
    val above = points.map { place(it.at, it.upper) }
    return through(above + points.reversed().map { place(it.at, it.lower) }).apply { close() }
}

private fun DrawScope.middle(points: List<ChartPoint>): Path = through(points.map { place(it.at, it.middle) })

private fun through(places: List<Offset>): Path = Path().apply {
    places.forEachIndexed { number, at -> if (number == 0) moveTo(at.x, at.y) else lineTo(at.x, at.y) }
}

private fun DrawScope.dashed(color: Color, at: Double) {
    val y = place(0.0, at).y
    val dash = PathEffect.dashPathEffect(floatArrayOf(8.dp.toPx(), 6.dp.toPx()))
    drawLine(color, Offset(0f, y), Offset(size.width, y), 2.dp.toPx(), pathEffect = dash)
}
