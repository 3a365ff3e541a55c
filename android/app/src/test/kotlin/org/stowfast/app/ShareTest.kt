package org.stowfast.app

import android.content.Intent
import androidx.activity.ComponentActivity
import androidx.activity.compose.setContent
import androidx.compose.runtime.Composable
import androidx.compose.ui.semantics.SemanticsNode
import androidx.compose.ui.semantics.SemanticsProperties
import androidx.compose.ui.semantics.getOrNull
import androidx.compose.ui.test.hasStateDescription
import androidx.compose.ui.test.junit4.createEmptyComposeRule
import androidx.compose.ui.test.onAllNodesWithTag
import androidx.compose.ui.test.onAllNodesWithText
import androidx.compose.ui.test.onNodeWithTag
import androidx.compose.ui.test.onRoot
import androidx.compose.ui.test.performClick
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Rule
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.Robolectric
import org.robolectric.RobolectricTestRunner
import org.robolectric.Shadows.shadowOf
import org.robolectric.annotation.Config
import org.stowfast.app.ui.StowfastTheme

/** What is shared of each page against what stands on it: nothing is left out, added or put in another order. */
@RunWith(RobolectricTestRunner::class)
@Config(sdk = [34], qualifiers = "en-rGB-w411dp-h30000dp-mdpi")
class ShareTest {
    @get:Rule
    val screen = createEmptyComposeRule()

    @Test
    fun everyPageIsSharedAsItStands() {
        // A sheet lies over a page that is here without it.
        val pages = States.all.filterKeys { !it.endsWith("-more") }
        val shared = pages.filter { (name, content) -> shared(name, content) }
        assertEquals("what differs", emptyList<String>(), faults)
        assertTrue("only ${shared.size} of ${pages.size}", shared.size > pages.size / 2)
    }

    private val faults = mutableListOf<String>()

    private fun shared(name: String, content: @Composable () -> Unit): Boolean {
        val activity = Robolectric.buildActivity(ComponentActivity::class.java).setup()
        activity.get().setContent { StowfastTheme { content() } }
        screen.waitForIdle()
        val has = screen.onAllNodesWithTag("share-text").fetchSemanticsNodes().isNotEmpty()
        if (has) {
            val why = screen.onAllNodesWithText("Why?")
            for (index in why.fetchSemanticsNodes().indices) why[index].performClick()
            while (shut().isNotEmpty()) screen.onNodeWithTag(shut().first()).performClick()
            screen.onNodeWithTag("share-text").performClick()
            compare(name, pieces(root()), text(shadowOf(activity.get()).nextStartedActivity))
        } else {
            faults += unshared(root()).map { "$name: there is no way to share “$it”" }
        }
        // What waits or opens is taken away as the app would, so that no later test waits for it.
        activity.get().setContent {}
        screen.waitForIdle()
        activity.pause().stop().destroy()
        return has
    }

    private fun root(): SemanticsNode = screen.onRoot(useUnmergedTree = true).fetchSemanticsNode()

    /** The rows of what comes later that are not open. */
    private fun shut(): List<String> = screen.onAllNodes(hasStateDescription("Shut")).fetchSemanticsNodes()
        .mapNotNull { it.config.getOrNull(SemanticsProperties.TestTag) }
        .filter { it.startsWith("later-") || it == "more-items" || it == "road-items" }

    private fun text(chooser: Intent): String {
        assertEquals(Intent.ACTION_CHOOSER, chooser.action)
        val sent = chooser.getParcelableExtra(Intent.EXTRA_INTENT, Intent::class.java) ?: throw AssertionError("nothing is sent")
        assertEquals(Intent.ACTION_SEND to "text/plain", sent.action to sent.type)
        return sent.getStringExtra(Intent.EXTRA_TEXT).orEmpty()
    }

    private fun compare(name: String, page: List<Piece>, text: String) {
        val lines = text.lines().map { it.removePrefix("– ").removePrefix("! ") }.filter { it.isNotEmpty() }
        val all = page.joinToString(" ") { it.text }
        faults += lines.filterNot { it in all }.map { "$name: “$it” is not on the page" }
        val whole = lines.joinToString(" ")
        val content = page.filterNot { it.control || it.text == "–" || it.text in frame }.map { it.text }
        faults += content.filterNot { it in whole }.map { "$name: “$it” is not shared" }
        // The title may stand on the page once more, as what a door leads from.
        content.distinct().fold(0) { before, text ->
            val places = lines.indices.drop(1).filter { lines[it] == text }
            if (places.isNotEmpty() && places.last() <= before) faults += "$name: “$text” stands further up on the page than in $lines"
            places.find { it > before } ?: before
        }
    }
}
