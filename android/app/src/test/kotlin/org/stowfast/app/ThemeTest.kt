package org.stowfast.app

import android.app.UiModeManager
import android.content.Context
import android.content.res.Configuration
import android.graphics.drawable.AdaptiveIconDrawable
import androidx.compose.material3.lightColorScheme
import androidx.compose.ui.graphics.Color
import androidx.compose.ui.test.onNodeWithTag
import androidx.test.core.app.ApplicationProvider
import org.junit.Assert.assertEquals
import org.junit.Assert.assertNotNull
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.Shadows.shadowOf
import org.stowfast.app.theme.Brightness
import org.stowfast.app.theme.Contrast
import org.stowfast.app.theme.ThemeState
import org.stowfast.app.theme.ThemeStore
import org.stowfast.app.ui.DarkHighPalette
import org.stowfast.app.ui.DarkPalette
import org.stowfast.app.ui.LightHighPalette
import org.stowfast.app.ui.LightPalette
import org.stowfast.app.ui.Palette
import org.stowfast.app.ui.Tone

/** Colours, the choice of them, and the icon. */
@RunWith(RobolectricTestRunner::class)
class ThemeTest : OnScreen() {
    @Test
    fun lettersStandOutFromTheirGround() {
        for ((name, palette) in mapOf("light" to LightPalette, "dark" to DarkPalette)) assertStandsOut(name, palette, text = 4.5f, mark = 3f)
    }

    @Test
    fun highContrastIsHigher() {
        for ((name, palette) in mapOf("light" to LightHighPalette, "dark" to DarkHighPalette)) assertStandsOut(name, palette, text = 7f, mark = 4.5f)
    }

    @Test
    fun noRoleIsTheToolkitsOwn() {
        val theirs = roles(lightColorScheme()).values.toSet() - Color.White - Color.Black
        for (palette in listOf(LightPalette, DarkPalette, LightHighPalette, DarkHighPalette)) {
            assertEquals(emptyMap<String, Color>(), roles(palette.scheme).filterValues { it in theirs })
        }
    }

    @Test
    fun theChoiceIsKeptAndTheSettingsHaveIt() {
        chooseDemo()
        tap("vehicles")
        tap("settings")
        page("theme", tag = true)
        tap("brightness-DARK")
        page("theme", tag = true)
        var night = 0
        activity.onActivity { night = it.resources.configuration.uiMode and Configuration.UI_MODE_NIGHT_MASK }
        assertEquals(Configuration.UI_MODE_NIGHT_YES, night)
        tap("contrast-HIGH")
        draw("real-theme")
        val fresh = ThemeStore(ApplicationProvider.getApplicationContext<Context>().getSharedPreferences("theme", Context.MODE_PRIVATE))
        assertEquals(ThemeState(Brightness.DARK, Contrast.HIGH), fresh.state.value)
        kill()
        screen.onNodeWithTag("verdict").assertExists()
        draw("real-high")
    }

    @Test
    fun theLettersKeepTheSizeThatThePhoneGivesThem() {
        var before = 0f
        activity.onActivity { before = it.resources.configuration.fontScale }
        activity.onActivity { (it.application as StowfastApp).theme.choose(ThemeState(Brightness.DARK, Contrast.SYSTEM)) }
        screen.waitForIdle()
        activity.onActivity { assertEquals(before, it.resources.configuration.fontScale) }
    }

    @Test
    fun thePhonesContrastIsFollowedUnlessOneWasChosen() {
        val app = ApplicationProvider.getApplicationContext<StowfastApp>()
        assertEquals(LightPalette.scheme.background, ground())
        shadowOf(app.getSystemService(UiModeManager::class.java)).setContrast(1f)
        activity.recreate()
        assertEquals(LightHighPalette.scheme.background, ground())
        activity.onActivity { app.theme.choose(ThemeState(Brightness.SYSTEM, Contrast.ORDINARY)) }
        assertEquals(LightPalette.scheme.background, ground())
    }

    /** What a page is drawn on: a pixel at its edge. */
    private fun ground(): Color {
        var pixel = 0
        screen.waitForIdle()
        activity.onActivity { pixel = picture("ground", it).getPixel(4, 400) }
        return Color(pixel)
    }

    @Test
    fun theIconHasALayerOfOneColour() {
        val app = ApplicationProvider.getApplicationContext<Context>()
        val icon = app.getDrawable(R.mipmap.launcher) as AdaptiveIconDrawable
        assertNotNull(icon.background)
        assertNotNull(icon.foreground)
        assertNotNull(icon.monochrome)
    }

    private fun assertStandsOut(name: String, palette: Palette, text: Float, mark: Float) {
        val scheme = palette.scheme
        val grounds = listOf(scheme.background, scheme.surface, scheme.surfaceVariant)
        val fields = with(palette.roles) { listOf(clear, blocked, unknown, quiet) }
        val letters = listOf(scheme.onSurface, scheme.onSurfaceVariant, scheme.primary) + fields.map(Tone::mark)
        val pairs = grounds.flatMap { ground -> letters.map { it to ground } } +
            fields.flatMap { tone -> listOf(tone.ink, tone.mark, scheme.onSurfaceVariant, scheme.primary).map { it to tone.field } } +
            listOf(scheme.onPrimary to scheme.primary, scheme.onError to scheme.error, scheme.onPrimaryContainer to scheme.primaryContainer) +
            (palette.roles.emergency.ink to palette.roles.emergency.field)
        for ((ink, ground) in pairs) assertTrue("$name: $ink on $ground has ${contrast(ink, ground)}", contrast(ink, ground) >= text)
        for (ground in grounds) assertTrue("$name: lines on $ground", contrast(scheme.outline, ground) >= mark)
    }

    private fun roles(scheme: Any): Map<String, Color> = scheme.javaClass.declaredMethods
        .filter { it.name.startsWith("get") && it.parameterCount == 0 && it.returnType == Long::class.javaPrimitiveType }
        .associate { it.name to Color((it.invoke(scheme) as Long).toULong()) }
}
