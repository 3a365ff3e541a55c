package org.stowfast.app

import androidx.activity.ComponentActivity
import androidx.activity.compose.setContent
import androidx.compose.foundation.background
import androidx.compose.foundation.clickable
import androidx.compose.foundation.layout.Box
import androidx.compose.foundation.layout.Column
import androidx.compose.foundation.layout.offset
import androidx.compose.foundation.layout.padding
import androidx.compose.foundation.layout.size
import androidx.compose.foundation.layout.width
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.ui.Modifier
import androidx.compose.ui.graphics.Color
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.semantics.CustomAccessibilityAction
import androidx.compose.ui.semantics.Role
import androidx.compose.ui.semantics.contentDescription
import androidx.compose.ui.semantics.customActions
import androidx.compose.ui.semantics.heading
import androidx.compose.ui.semantics.role
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.text.style.TextOverflow
import androidx.compose.ui.test.junit4.createEmptyComposeRule
import androidx.compose.ui.unit.dp
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Rule
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.Robolectric
import org.robolectric.RobolectricTestRunner
import org.robolectric.annotation.Config
import org.stowfast.app.ui.StowfastTheme

/** The walk itself: it stops at each barrier, and lets a page without any pass. */
@RunWith(RobolectricTestRunner::class)
@Config(sdk = [34], qualifiers = "en-rGB-w411dp-h891dp-mdpi")
class WalkTest {
    @get:Rule
    val screen = createEmptyComposeRule()

    @Test
    fun aPageWithoutBarriersPasses() = assertEquals(emptyList<String>(), walk { Target(Modifier) })

    @Test
    fun aTargetNeedsANameARoleAStateAndRoom() {
        stops("without a name") { Box(Modifier.size(48.dp).clickable(role = Role.Button) {}) }
        stops("has no role") { Box(Modifier.size(48.dp).clickable {}.semantics { contentDescription = "Undo" }) }
        stops("has no state") { Target(Modifier.semantics { role = Role.Checkbox }, role = null) }
        stops("dp high") { Box(Modifier.testTag("bottom")) { Target(Modifier) } }
    }

    @Test
    fun noLetterIsCutAndNoWordIsBroken() {
        stops("is cut off") { Text("Shut the valve of the gas cylinder before you drive off", Modifier.width(120.dp), maxLines = 1, overflow = TextOverflow.Ellipsis) }
        stops("is cut off") { Text("Shut the valve", Modifier.size(200.dp, 8.dp)) }
        stops("broken within a word") { Text("Extraordinarily", Modifier.width(40.dp)) }
    }

    @Test
    fun faintLettersAreSeen() = stops("contrast of only") {
        Text("Faint", Modifier.background(Color.White).padding(8.dp), color = Color(0xFFAAAAAA))
    }

    @Test
    fun whatOnlyAGestureDoesIsFound() = stops("by a gesture only") {
        Text("Swipe me", Modifier.semantics { customActions = listOf(CustomAccessibilityAction("Remove") { true }) })
    }

    @Test
    fun readingGoesDownwards() = stops("above it") {
        Column {
            Text("Second", Modifier.offset(y = 60.dp))
            Text("First", Modifier.offset(y = (-20).dp))
        }
    }

    @Test
    fun aPageNeedsAHeading() {
        val barriers = show { Text("Words") }
        assertTrue("$barriers", barriers.any { "no heading" in it })
    }

    @Composable
    private fun Target(modifier: Modifier, role: Role? = Role.Button) =
        Box(modifier.size(48.dp).clickable(role = role) {}) { Text("Go") }

    private fun stops(at: String, content: @Composable () -> Unit) {
        val barriers = walk(content)
        assertTrue("$at is not in $barriers", barriers.any { at in it })
    }

    private fun walk(content: @Composable () -> Unit): List<String> = show {
        Column {
            Text("Title", Modifier.semantics { heading() })
            content()
        }
    }

    private fun show(content: @Composable () -> Unit): List<String> {
        val activity = Robolectric.buildActivity(ComponentActivity::class.java).setup()
        activity.get().setContent { StowfastTheme { Box(Modifier.background(Color.White).size(411.dp, 700.dp)) { content() } } }
        screen.waitForIdle()
        return barriers(activity.get(), picture("walk", activity.get())).also { activity.pause().stop().destroy() }
    }
}
