package org.stowfast.app

import android.view.View
import android.view.ViewGroup
import androidx.activity.ComponentActivity
import androidx.activity.compose.setContent
import androidx.activity.enableEdgeToEdge
import androidx.compose.runtime.Composable
import androidx.compose.ui.node.RootForTest
import androidx.compose.ui.semantics.SemanticsActions
import androidx.compose.ui.semantics.SemanticsNode
import androidx.compose.ui.semantics.SemanticsProperties
import androidx.compose.ui.semantics.getAllSemanticsNodes
import androidx.compose.ui.semantics.getOrNull
import androidx.compose.ui.test.junit4.createEmptyComposeRule
import androidx.compose.ui.text.TextLayoutResult
import org.junit.Assert.assertTrue
import org.junit.Rule
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.Robolectric
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.annotation.Config
import org.robolectric.annotation.GraphicsMode
import org.stowfast.app.ui.StowfastTheme

/**
 * Draws every state in light and dark, at letters of normal and double size, to target/screenshots, and holds
 * each to the accessibility rules on the way: a name for every target, and 48 dp to hit it.
 */
@RunWith(RobolectricTestRunner::class)
@GraphicsMode(GraphicsMode.Mode.NATIVE)
@Config(sdk = [34], qualifiers = "en-rGB-w411dp-h891dp-xhdpi")
class PictureTest {
    @get:Rule
    val screen = createEmptyComposeRule()

    @Test
    fun phoneUpright() {
        for (night in listOf("notnight", "night")) {
            for (scale in listOf(1f, 2f)) draw("$night-${scale.toInt()}x", "+w411dp-h891dp-port-$night", scale)
        }
    }

    @Test
    fun phoneOnItsSide() = draw("land", "+w891dp-h411dp-land-notnight", 1f)

    private fun draw(suffix: String, qualifiers: String, scale: Float) {
        RuntimeEnvironment.setQualifiers(qualifiers)
        RuntimeEnvironment.setFontScale(scale)
        for ((name, content) in States.all) draw("$name-${suffix.replace("notnight", "light")}", content)
    }

    private fun draw(name: String, content: @Composable () -> Unit) {
        val activity = Robolectric.buildActivity(ComponentActivity::class.java).setup()
        activity.get().enableEdgeToEdge()
        activity.get().setContent { StowfastTheme { content() } }
        screen.waitForIdle()
        picture(name, activity.get())
        windows(activity.get()).forEach { check(name, it) }
        activity.pause().stop().destroy()
    }

    private fun check(name: String, view: View) {
        val smallest = 47.5f * view.resources.displayMetrics.density
        val nodes = roots(view).flatMap { it.semanticsOwner.getAllSemanticsNodes(mergingEnabled = true) }
        val targets = nodes.filter { SemanticsActions.OnClick in it.config }
        for (node in roots(view).flatMap { it.semanticsOwner.getAllSemanticsNodes(mergingEnabled = false) }) {
            val layouts = mutableListOf<TextLayoutResult>()
            node.config.getOrNull(SemanticsActions.GetTextLayoutResult)?.action?.invoke(layouts)
            assertTrue("$name: ${words(node)} is cut", layouts.none { it.multiParagraph.didExceedMaxLines })
            if (node.config.getOrNull(SemanticsProperties.TestTag) == "confirm") {
                assertTrue("$name: the step's button is ${node.size.height} high", node.size.height >= 64f * view.resources.displayMetrics.density)
            }
        }
        assertTrue("$name: no target at all", targets.isNotEmpty() || name.startsWith("emergency"))
        for (node in targets) {
            val bounds = node.touchBoundsInRoot
            // What is scrolled out at an edge is cut there, not small.
            val cut = bounds.top <= 0f || bounds.bottom >= view.height || node.boundsInRoot.height < node.size.height
            assertTrue("$name: ${words(node)} is ${bounds.width} by ${bounds.height}", cut || (bounds.width >= smallest && bounds.height >= smallest))
            assertTrue("$name: a target without a name", words(node).isNotBlank() || SemanticsProperties.EditableText in node.config)
        }
    }

    private fun words(node: SemanticsNode): String =
        node.config.getOrNull(SemanticsProperties.ContentDescription).orEmpty().joinToString() +
            node.config.getOrNull(SemanticsProperties.Text).orEmpty().joinToString { it.text }

    private fun roots(view: View): List<RootForTest> =
        listOfNotNull(view as? RootForTest) +
            ((view as? ViewGroup)?.let { group -> (0 until group.childCount).flatMap { roots(group.getChildAt(it)) } }.orEmpty())
}
