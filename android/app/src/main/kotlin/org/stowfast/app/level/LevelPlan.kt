package org.stowfast.app.level

import androidx.compose.foundation.Canvas
import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.Column
import androidx.compose.foundation.layout.Row
import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.foundation.layout.height
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.runtime.CompositionLocalProvider
import androidx.compose.ui.Alignment
import androidx.compose.ui.Modifier
import androidx.compose.ui.geometry.CornerRadius
import androidx.compose.ui.geometry.Offset
import androidx.compose.ui.geometry.Size
import androidx.compose.ui.graphics.Color
import androidx.compose.ui.graphics.Path
import androidx.compose.ui.graphics.drawscope.DrawScope
import androidx.compose.ui.graphics.drawscope.Stroke
import androidx.compose.ui.platform.LocalLayoutDirection
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.clearAndSetSemantics
import androidx.compose.ui.semantics.heading
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.unit.LayoutDirection
import androidx.compose.ui.unit.dp
import org.stowfast.app.R
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.short
import org.stowfast.engine.LevelPage
import org.stowfast.engine.ReckoningLine

/** The vehicle from above, its front at the top: each wheel with what it lacks, and a bubble that goes to the high side. */
@Composable
internal fun LevelPlan(page: LevelPage) {
    // Left of the vehicle is left here, whichever way a language is written.
    CompositionLocalProvider(LocalLayoutDirection provides LayoutDirection.Ltr) {
        Panel(Modifier.testTag("plan")) {
            Text(stringResource(R.string.level_plan), Modifier.semantics { heading() }, style = MaterialTheme.typography.titleMedium)
            val axles = page.wheels.chunked(2)
            axles.firstOrNull()?.let { Axle(it) }
            Drawing(page)
            axles.lastOrNull()?.let { Axle(it) }
        }
    }
}

@Composable
private fun Axle(wheels: List<ReckoningLine>) = Row(Modifier.fillMaxWidth(), Arrangement.spacedBy(12.dp), Alignment.Top) {
    for (wheel in wheels) Wheel(wheel, Modifier.weight(1f))
}

@Composable
private fun Wheel(wheel: ReckoningLine, modifier: Modifier) = Column(modifier.testTag("wheel-" + wheel.id).semantics(mergeDescendants = true) { }) {
    Text(wheel.title, style = MaterialTheme.typography.bodyMedium, color = MaterialTheme.colorScheme.onSurfaceVariant)
    Text(wheel.text, style = MaterialTheme.typography.titleMedium)
    wheel.detail?.let { raise ->
        Marked(R.drawable.ic_up, size = 22.dp, gap = 4.dp) { Text(raise, style = MaterialTheme.typography.titleMedium) }
    }
}

/** What is drawn is said beside it. */
@Composable
private fun Drawing(page: LevelPage) {
    val colours = MaterialTheme.colorScheme
    val inks = Inks(colours.outline, colours.surface, colours.primary, colours.onPrimary)
    Canvas(Modifier.fillMaxWidth().height(if (short()) 110.dp else 200.dp).clearAndSetSemantics { }) {
        body(inks.line)
        for (index in 0 until WHEELS) wheel(index, page.wheels.getOrNull(index)?.detail != null, inks)
        val ahead = page.bubbleAhead
        val left = page.bubbleLeft
        if (ahead != null && left != null) bubble(ahead.toFloat(), left.toFloat(), inks)
    }
}

private class Inks(val line: Color, val ground: Color, val strong: Color, val onStrong: Color)

private const val WHEELS = 4
private val DrawScope.half get() = size.height * 0.24f
private val DrawScope.edge get() = 2.dp.toPx()

/** Its outline, and the windscreen. */
private fun DrawScope.body(line: Color) {
    val corner = CornerRadius(half * 0.4f)
    drawRoundRect(line, Offset(center.x - half, edge), Size(half * 2, size.height - edge * 2), corner, Stroke(edge))
    val (top, bottom) = size.height * 0.09f to size.height * 0.17f
    val glass = Path().apply {
        moveTo(center.x - half * 0.6f, top)
        lineTo(center.x + half * 0.6f, top)
        lineTo(center.x + half * 0.8f, bottom)
        lineTo(center.x - half * 0.8f, bottom)
        close()
    }
    drawPath(glass, line, style = Stroke(edge))
}

/** Front left, front right, rear left, rear right. One that is to be raised is full, with an arrow up. */
private fun DrawScope.wheel(index: Int, raise: Boolean, inks: Inks) {
    val (width, height) = half * 0.5f to size.height * 0.22f
    val x = center.x + (half + edge) * (if (index % 2 == 0) -1 else 1) - width / 2
    val y = if (index < 2) size.height * 0.2f else size.height * 0.7f
    val corner = CornerRadius(width * 0.3f)
    drawRoundRect(if (raise) inks.strong else inks.ground, Offset(x, y), Size(width, height), corner)
    drawRoundRect(if (raise) inks.strong else inks.line, Offset(x, y), Size(width, height), corner, Stroke(edge))
    if (!raise) return
    val (tip, foot) = Offset(x + width / 2, y + height * 0.25f) to Offset(x + width / 2, y + height * 0.75f)
    drawLine(inks.onStrong, foot, tip, edge * 1.5f)
    for (side in listOf(-1, 1)) drawLine(inks.onStrong, tip, Offset(tip.x + side * width * 0.25f, tip.y + width * 0.3f), edge * 1.5f)
}

/** As in a round spirit level: [ahead] and [left] are from -1 to 1. */
private fun DrawScope.bubble(ahead: Float, left: Float, inks: Inks) {
    val ring = half * 0.75f
    val middle = Offset(center.x, size.height * 0.56f)
    drawCircle(inks.line, ring, middle, style = Stroke(edge))
    drawCircle(inks.line, ring * 0.34f, middle, style = Stroke(edge))
    val reach = ring * 0.75f
    drawCircle(inks.strong, ring * 0.25f, Offset(middle.x - left * reach, middle.y - ahead * reach))
}
