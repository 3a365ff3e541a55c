package org.stowfast.app

import android.graphics.Bitmap
import androidx.activity.ComponentActivity
import androidx.activity.compose.setContent
import androidx.activity.enableEdgeToEdge
import androidx.compose.runtime.Composable
import androidx.compose.ui.test.junit4.createEmptyComposeRule
import org.junit.Assert.assertEquals
import org.junit.Rule
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.ParameterizedRobolectricTestRunner
import org.robolectric.Robolectric
import org.robolectric.RuntimeEnvironment
import org.robolectric.annotation.Config
import org.stowfast.app.theme.Contrast
import org.stowfast.app.ui.StowfastTheme

/** In which ways states are drawn: [every] one, or the first of each screen. A pixel is a dp, so that references stay small. */
enum class Look(val suffix: String, val qualifiers: String, val letters: Float, val contrast: Contrast, val every: Boolean) {
    LIGHT("light-1x", "+w411dp-h891dp-port-notnight", 1f, Contrast.ORDINARY, every = true),
    LARGE("light-2x", "+w411dp-h891dp-port-notnight", 2f, Contrast.ORDINARY, every = true),
    NIGHT("night-1x", "+w411dp-h891dp-port-night", 1f, Contrast.ORDINARY, every = true),
    NIGHT_LARGE("night-2x", "+w411dp-h891dp-port-night", 2f, Contrast.ORDINARY, every = false),
    LANDSCAPE("land", "+w891dp-h411dp-land-notnight", 1f, Contrast.ORDINARY, every = true),
    TABLET("tablet", "+w1280dp-h800dp-land-notnight", 1f, Contrast.ORDINARY, every = false),
    HIGH("high-1x", "+w411dp-h891dp-port-notnight", 1f, Contrast.HIGH, every = false),
    NIGHT_HIGH("night-high-1x", "+w411dp-h891dp-port-night", 1f, Contrast.HIGH, every = false),
}

/**
 * Draws every state of a screen in every look to target/screenshots, and walks each on the way. The states in light,
 * and the first of them in the other looks, are held to the sheets in src/test/screenshots.
 */
@RunWith(ParameterizedRobolectricTestRunner::class)
@Config(sdk = [34], qualifiers = "en-rGB-w411dp-h891dp-mdpi")
class PictureTest(private val page: String) {
    @get:Rule
    val screen = createEmptyComposeRule()

    private val faults = mutableListOf<String>()

    @Test
    fun everyStateCanBeUsedAndLooksAsItDid() {
        val states = States.of(page)
        val first = states.keys.first()
        val pictures = Look.entries.associateWith { look ->
            states.filterKeys { look.every || it == first }.mapValues { (name, content) -> draw("$name-${look.suffix}", look, content) }
        }
        faults += holdToReference("$page-states", pictures.getValue(Look.LIGHT))
        val others = listOf(Look.LARGE, Look.NIGHT, Look.NIGHT_LARGE, Look.HIGH, Look.LANDSCAPE, Look.TABLET)
        faults += holdToReference("$page-looks", others.associate { look -> "$first-${look.suffix}" to pictures.getValue(look).getValue(first) })
        if (page == States.pages.last()) contactSheet()
        assertEquals(emptyList<String>(), faults)
    }

    private fun draw(name: String, look: Look, content: @Composable () -> Unit): Bitmap {
        RuntimeEnvironment.setQualifiers(look.qualifiers)
        RuntimeEnvironment.setFontScale(look.letters)
        val activity = Robolectric.buildActivity(ComponentActivity::class.java).setup()
        activity.get().enableEdgeToEdge()
        activity.get().setContent { StowfastTheme(look.contrast) { content() } }
        screen.waitForIdle()
        val picture = picture(name, activity.get())
        faults += barriers(activity.get(), picture).map { "$name: $it" }
        // A sheet is taken away as the app would, so that nothing waits for it.
        activity.get().setContent {}
        screen.waitForIdle()
        activity.pause().stop().destroy()
        return picture
    }

    companion object {
        @JvmStatic
        @ParameterizedRobolectricTestRunner.Parameters(name = "{0}")
        fun pages(): List<Array<Any>> = States.pages.map { arrayOf(it) }
    }
}
