package org.stowfast.app

import android.app.Activity
import android.graphics.Bitmap
import android.view.View
import android.view.ViewGroup
import androidx.compose.ui.geometry.Rect
import androidx.compose.ui.graphics.Color
import androidx.compose.ui.graphics.compositeOver
import androidx.compose.ui.graphics.isSpecified
import androidx.compose.ui.graphics.luminance
import androidx.compose.ui.node.RootForTest
import androidx.compose.ui.semantics.Role
import androidx.compose.ui.semantics.SemanticsActions
import androidx.compose.ui.semantics.SemanticsNode
import androidx.compose.ui.semantics.SemanticsProperties
import androidx.compose.ui.semantics.getAllSemanticsNodes
import androidx.compose.ui.semantics.getOrNull
import androidx.compose.ui.text.TextLayoutResult
import androidx.compose.ui.text.font.FontFamily
import androidx.compose.ui.unit.toSize
import kotlin.math.max
import kotlin.math.min

/**
 * What in the windows of [activity] somebody could not reach, hear, read or tell apart; empty where all is well. Every
 * test that shows a page walks it. With its [picture], letters are also held against what is drawn behind them.
 */
fun barriers(activity: Activity, picture: Bitmap? = null): List<String> {
    val windows = windows(activity)
    return windows.flatMap { window ->
        // What a sheet lies over is dimmed, and nobody reads it then.
        roots(window).flatMap { Walk(it, window).barriers(picture.takeIf { window == windows.last() }) }
    }
}

/** How much lighter the lighter of two colours is, from 1 to 21, as WCAG 2.2 reckons it. */
fun contrast(one: Color, other: Color): Float {
    val (a, b) = one.luminance() to other.luminance()
    return (max(a, b) + 0.05f) / (min(a, b) + 0.05f)
}

/** The semantics tree of one window, node by node in reading order. */
private class Walk(root: RootForTest, private val window: View) {
    private val dp = window.resources.displayMetrics.density
    private val owner = root.semanticsOwner
    // What a list has made ready below its edge and not placed yet is there for nobody.
    private val nodes = inOrder(owner.rootSemanticsNode)
        .filter { it.layoutInfo.isPlaced && it.boundsInRoot.width > 0 && it.boundsInRoot.height > 0 }
    private val parts = owner.getAllSemanticsNodes(mergingEnabled = false)
    private val targets = nodes.filter { SemanticsActions.OnClick in it.config }

    /** What a list keeps in any order is read by where it stands. */
    private fun inOrder(node: SemanticsNode): List<SemanticsNode> {
        val listed = SemanticsProperties.VerticalScrollAxisRange in node.config
        return listOf(node) + (if (listed) node.children.sortedBy { it.positionInRoot.y } else node.children).flatMap(::inOrder)
    }

    fun barriers(picture: Bitmap?): List<String> =
        targets.flatMap(::target) + bottom() + parts.flatMap { text(it, picture) } + gestures() + order() + headings()

    /** A name, a role, a state where its kind has one, and room for a thumb. */
    private fun target(node: SemanticsNode): List<String> {
        val role = node.config.getOrNull(SemanticsProperties.Role)
        val typed = SemanticsActions.SetText in node.config
        val stateful = role in listOf(Role.Checkbox, Role.Switch, Role.RadioButton, Role.Tab)
        val state = SemanticsProperties.Selected in node.config || SemanticsProperties.ToggleableState in node.config
        val bounds = node.touchBoundsInRoot
        // What is scrolled out at an edge is cut there, not small.
        val cut = bounds.top <= 0f || bounds.bottom >= window.height || node.boundsInRoot.height < node.size.height
        return listOfNotNull(
            "a target without a name at $bounds".takeIf { words(node).isBlank() },
            // The toolkit's own way to shut a sheet has none to give.
            "${words(node)} has no role".takeIf { role == null && !typed && words(node) != "Close sheet" },
            "${words(node)} has no state".takeIf { stateful && !state },
            "${words(node)} is ${bounds.width / dp} by ${bounds.height / dp} dp".takeIf { !cut && min(bounds.width, bounds.height) < (TARGET_DP - 0.5f) * dp },
        )
    }

    /** What stands lowest, under the thumb, is larger, and on its side always at the right. */
    private fun bottom(): List<String> {
        val row = targets.filter { within(it, "bottom") }
        val tallest = row.maxOfOrNull { it.size.height } ?: return emptyList()
        val left = row.minOf { it.boundsInWindow.left }
        return listOfNotNull(
            "the button at the bottom edge is ${tallest / dp} dp high".takeIf { tallest < STEP_DP * dp },
            "the button at the bottom edge stands at the left".takeIf { window.width > window.height && left < window.width / 2 },
        )
    }

    /** No letter is cut off, no word is broken, and all stand out from what is behind them. */
    private fun text(node: SemanticsNode, picture: Bitmap?): List<String> {
        val layouts = mutableListOf<TextLayoutResult>()
        node.config.getOrNull(SemanticsActions.GetTextLayoutResult)?.action?.invoke(layouts)
        val layout = layouts.singleOrNull() ?: return emptyList()
        val text = layout.layoutInput.text.text
        val broken = (0 until layout.lineCount - 1).map { layout.getLineEnd(it) }.any { text[it - 1].isLetter() && text[it].isLetter() }
        val typed = SemanticsProperties.EditableText in node.config
        // Names that no person made up are longer than a line, and end where the line does.
        val technical = layout.layoutInput.style.fontFamily == FontFamily.Monospace
        val cut = layout.multiParagraph.height > layout.size.height + 1 || layout.multiParagraph.didExceedMaxLines || layout.size.height > node.size.height + 1 || (0 until layout.lineCount).any(layout::isLineEllipsized)
        return listOfNotNull(
            "“$text” is cut off".takeIf { cut && !typed },
            "“$text” is broken within a word".takeIf { broken && !typed && !technical },
            picture?.let { faint(node, layout, it) },
        )
    }

    private fun faint(node: SemanticsNode, layout: TextLayoutResult, picture: Bitmap): String? {
        val style = layout.layoutInput.style
        val disabled = generateSequence(node) { it.parent }.any { SemanticsProperties.Disabled in it.config }
        if (covered(node)) return null
        val inks = (listOf(style.color) + layout.layoutInput.text.spanStyles.map { it.item.color }).filter { it.isSpecified }
        if (disabled || inks.isEmpty() || layout.layoutInput.text.isEmpty()) return null
        val ground = ground(node.boundsInWindow, picture) ?: return null
        val stands = inks.minOf { contrast(it.compositeOver(ground), ground) }
        val least = if (style.fontSize.value >= LARGE_SP) LARGE_CONTRAST else TEXT_CONTRAST
        return "“${layout.layoutInput.text.text}” has a contrast of only $stands".takeIf { stands < least }
    }

    /** The colour that most of a text's box shows: what lies between the letters. */
    private fun ground(bounds: Rect, picture: Bitmap): Color? {
        val (left, top) = max(0, bounds.left.toInt()) to max(0, bounds.top.toInt())
        val (width, height) = min(picture.width, bounds.right.toInt()) - left to min(picture.height, bounds.bottom.toInt()) - top
        if (width < 1 || height < 1) return null
        val pixels = IntArray(width * height).also { picture.getPixels(it, 0, width, left, top, width, height) }
        return pixels.toList().groupingBy { it }.eachCount().maxByOrNull { it.value }?.let { Color(it.key) }
    }

    /** Whatever a gesture of its own does can be done by a tap too. */
    private fun gestures(): List<String> = nodes
        .filter { SemanticsActions.CustomActions in it.config && SemanticsActions.OnClick !in it.config }
        .map { "${words(it)} can be done by a gesture only" }

    /** One reads on downwards, or goes on in a column to the right. */
    private fun order(): List<String> = nodes
        .filter { words(it).isNotBlank() && OVER.none { over -> within(it, over) } }
        .zipWithNext { one, next ->
            // Where they would stand if nothing were scrolled out.
            val (from, to) = listOf(one, next).map { Rect(it.positionInRoot, it.size.toSize()) }
            "after “${words(one)}” one reads “${words(next)}” above it".takeIf { to.bottom <= from.top && to.left < from.right }
        }.filterNotNull()

    /** One can jump to the title of a page, and it is the first of the headings. */
    private fun headings(): List<String> {
        val headings = parts.filter { SemanticsProperties.Heading in it.config && it.boundsInRoot.height > 0 }
        val first = parts.filter { SemanticsProperties.Text in it.config && it.boundsInRoot.height > 0 }.minByOrNull { it.boundsInRoot.top }
        return listOfNotNull(
            "no heading".takeIf { headings.isEmpty() },
            "“${first?.let(::words)}” stands above the first heading".takeIf {
                first != null && headings.none { it.boundsInRoot.top <= first.boundsInRoot.bottom }
            },
        )
    }

    /** Whether something lies over it: what is drawn there is not its ground. */
    private fun covered(node: SemanticsNode): Boolean = parts
        .filter { it.config.getOrNull(SemanticsProperties.TestTag) in OVER }
        .any { it.boundsInWindow.overlaps(node.boundsInWindow) && generateSequence(node) { one -> one.parent }.none { one -> one.id == it.id } }

    private fun within(node: SemanticsNode, tag: String) =
        generateSequence(node) { it.parent }.any { it.config.getOrNull(SemanticsProperties.TestTag) == tag }

    private fun words(node: SemanticsNode): String =
        node.config.getOrNull(SemanticsProperties.ContentDescription).orEmpty().joinToString() +
            node.config.getOrNull(SemanticsProperties.Text).orEmpty().joinToString { it.text }

    private companion object {
        /** What lies over the foot of a page, and is read after all of it. */
        val OVER = listOf("notices", "crash-offer")
        const val TARGET_DP = 48
        const val STEP_DP = 64
        const val LARGE_SP = 24f
        const val TEXT_CONTRAST = 4.5f
        const val LARGE_CONTRAST = 3f
    }
}

private fun roots(view: View): List<RootForTest> =
    listOfNotNull(view as? RootForTest) +
        ((view as? ViewGroup)?.let { group -> (0 until group.childCount).flatMap { roots(group.getChildAt(it)) } }.orEmpty())
