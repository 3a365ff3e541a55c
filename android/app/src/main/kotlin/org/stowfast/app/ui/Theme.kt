package org.stowfast.app.ui

import android.app.UiModeManager
import android.os.Build
import androidx.compose.foundation.isSystemInDarkTheme
import androidx.compose.material3.ColorScheme
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Typography
import androidx.compose.runtime.Composable
import androidx.compose.runtime.CompositionLocalProvider
import androidx.compose.runtime.DisposableEffect
import androidx.compose.runtime.Immutable
import androidx.compose.runtime.getValue
import androidx.compose.runtime.mutableFloatStateOf
import androidx.compose.runtime.remember
import androidx.compose.runtime.setValue
import androidx.compose.runtime.staticCompositionLocalOf
import androidx.compose.ui.graphics.Color
import androidx.compose.ui.platform.LocalContext
import androidx.compose.ui.text.TextStyle
import androidx.compose.ui.text.font.FontWeight
import androidx.compose.ui.unit.sp
import org.stowfast.app.theme.Contrast

/** A field of colour, what is written on it, a mark strong enough to stand alone, and its edge where it needs one. */
@Immutable
data class Tone(val field: Color, val ink: Color, val mark: Color, val edge: Color?)

/** The colours that carry meaning. Each always comes with a shape and a word. */
@Immutable
data class Roles(val clear: Tone, val blocked: Tone, val unknown: Tone, val quiet: Tone, val emergency: Tone)

/** All colours of one look. [scheme] is what the parts of the toolkit take theirs from. */
@Immutable
data class Palette(val scheme: ColorScheme, val roles: Roles)

/** A look by its few grounds and inks: every role of the toolkit is one of them, none is its own. */
private data class Grounds(
    val page: Color, val sheet: Color, val raised: Color, val ink: Color, val muted: Color,
    val accent: Color, val onAccent: Color, val soft: Color, val onSoft: Color, val line: Color, val hair: Color,
)

private fun Grounds.palette(roles: Roles) = Palette(
    ColorScheme(
        primary = accent, onPrimary = onAccent, primaryContainer = soft, onPrimaryContainer = onSoft, inversePrimary = soft,
        secondary = accent, onSecondary = onAccent, secondaryContainer = soft, onSecondaryContainer = onSoft,
        tertiary = accent, onTertiary = onAccent, tertiaryContainer = soft, onTertiaryContainer = onSoft,
        background = page, onBackground = ink, surface = sheet, onSurface = ink,
        surfaceVariant = raised, onSurfaceVariant = muted, surfaceTint = accent, inverseSurface = ink, inverseOnSurface = sheet,
        error = roles.blocked.mark, onError = sheet, errorContainer = roles.blocked.field, onErrorContainer = roles.blocked.ink,
        outline = line, outlineVariant = hair, scrim = Color(0xFF000000),
        surfaceBright = sheet, surfaceDim = page, surfaceContainerLowest = sheet, surfaceContainerLow = sheet,
        surfaceContainer = sheet, surfaceContainerHigh = sheet, surfaceContainerHighest = raised,
    ),
    roles,
)

private fun tone(field: Long, ink: Long, mark: Long) = Tone(Color(field), Color(ink), Color(mark), edge = null)

/** On a plain ground it is the edge that sets a field apart. */
private fun edged(field: Long, ink: Long, mark: Long) = Tone(Color(field), Color(ink), Color(mark), edge = Color(mark))

val LightPalette = Grounds(
    page = Color(0xFFF6F4EC), sheet = Color(0xFFFFFEFA), raised = Color(0xFFECEDE4), ink = Color(0xFF17211F), muted = Color(0xFF4A5855),
    accent = Color(0xFF0B5A54), onAccent = Color(0xFFFFFFFF), soft = Color(0xFFCDE8E2), onSoft = Color(0xFF04322E),
    line = Color(0xFF77847F), hair = Color(0xFFD8DCD2),
).palette(
    Roles(
        clear = tone(0xFFD9EEDF, 0xFF0B3D25, 0xFF126B43),
        blocked = tone(0xFFFBE0D8, 0xFF5C1709, 0xFFB0301A),
        unknown = tone(0xFFFAE9C3, 0xFF473200, 0xFF8A5C00),
        quiet = tone(0xFFE6ECE6, 0xFF1B2B28, 0xFF0B5A54),
        emergency = tone(0xFFA8281B, 0xFFFFFFFF, 0xFFFFFFFF),
    ),
)

val DarkPalette = Grounds(
    page = Color(0xFF0E1413), sheet = Color(0xFF19211F), raised = Color(0xFF26312E), ink = Color(0xFFE7EDEA), muted = Color(0xFFAEBBB6),
    accent = Color(0xFF86D6CB), onAccent = Color(0xFF00322E), soft = Color(0xFF134742), onSoft = Color(0xFFCDEDE7),
    line = Color(0xFF83918C), hair = Color(0xFF33403C),
).palette(
    Roles(
        clear = tone(0xFF12352A, 0xFFCDEFDB, 0xFF74D6A2),
        blocked = tone(0xFF481B12, 0xFFFFDCD2, 0xFFFF9E86),
        unknown = tone(0xFF3C2D09, 0xFFFAE4B4, 0xFFF1C158),
        quiet = tone(0xFF22302D, 0xFFDCE7E3, 0xFF86D6CB),
        emergency = tone(0xFFFFB4A6, 0xFF4A0D05, 0xFF4A0D05),
    ),
)

/** Black on white, as in bright sun. */
val LightHighPalette = Grounds(
    page = Color(0xFFFFFFFF), sheet = Color(0xFFFFFFFF), raised = Color(0xFFFFFFFF), ink = Color(0xFF000000), muted = Color(0xFF1A2421),
    accent = Color(0xFF00403B), onAccent = Color(0xFFFFFFFF), soft = Color(0xFFFFFFFF), onSoft = Color(0xFF000000),
    line = Color(0xFF000000), hair = Color(0xFF000000),
).palette(
    Roles(
        clear = edged(0xFFFFFFFF, 0xFF000000, 0xFF00452A),
        blocked = edged(0xFFFFFFFF, 0xFF000000, 0xFF7E1404),
        unknown = edged(0xFFFFFFFF, 0xFF000000, 0xFF573900),
        quiet = edged(0xFFFFFFFF, 0xFF000000, 0xFF00403B),
        emergency = tone(0xFF7E1404, 0xFFFFFFFF, 0xFFFFFFFF),
    ),
)

/** White on black, as at night with tired eyes. */
val DarkHighPalette = Grounds(
    page = Color(0xFF000000), sheet = Color(0xFF000000), raised = Color(0xFF000000), ink = Color(0xFFFFFFFF), muted = Color(0xFFE4ECE9),
    accent = Color(0xFFB4F5EB), onAccent = Color(0xFF000000), soft = Color(0xFF000000), onSoft = Color(0xFFFFFFFF),
    line = Color(0xFFFFFFFF), hair = Color(0xFFFFFFFF),
).palette(
    Roles(
        clear = edged(0xFF000000, 0xFFFFFFFF, 0xFF9DF2C4),
        blocked = edged(0xFF000000, 0xFFFFFFFF, 0xFFFFC2B3),
        unknown = edged(0xFF000000, 0xFFFFFFFF, 0xFFFFDB8A),
        quiet = edged(0xFF000000, 0xFFFFFFFF, 0xFFB4F5EB),
        emergency = tone(0xFFFFC2B3, 0xFF000000, 0xFF000000),
    ),
)

/** Every role of the toolkit has its letters here. */
val Letters = Typography(
    displayLarge = TextStyle(fontSize = 32.sp, lineHeight = 38.sp, fontWeight = FontWeight.Bold),
    displayMedium = TextStyle(fontSize = 32.sp, lineHeight = 38.sp, fontWeight = FontWeight.Bold),
    displaySmall = TextStyle(fontSize = 32.sp, lineHeight = 38.sp, fontWeight = FontWeight.Bold),
    headlineLarge = TextStyle(fontSize = 26.sp, lineHeight = 33.sp, fontWeight = FontWeight.SemiBold),
    headlineMedium = TextStyle(fontSize = 26.sp, lineHeight = 33.sp, fontWeight = FontWeight.SemiBold),
    headlineSmall = TextStyle(fontSize = 20.sp, lineHeight = 26.sp, fontWeight = FontWeight.SemiBold),
    titleLarge = TextStyle(fontSize = 20.sp, lineHeight = 26.sp, fontWeight = FontWeight.SemiBold),
    titleMedium = TextStyle(fontSize = 17.sp, lineHeight = 23.sp, fontWeight = FontWeight.SemiBold),
    titleSmall = TextStyle(fontSize = 15.sp, lineHeight = 21.sp, fontWeight = FontWeight.SemiBold),
    bodyLarge = TextStyle(fontSize = 17.sp, lineHeight = 24.sp),
    bodyMedium = TextStyle(fontSize = 15.sp, lineHeight = 21.sp),
    bodySmall = TextStyle(fontSize = 14.sp, lineHeight = 19.sp),
    labelLarge = TextStyle(fontSize = 17.sp, lineHeight = 22.sp, fontWeight = FontWeight.SemiBold),
    labelMedium = TextStyle(fontSize = 14.sp, lineHeight = 19.sp, fontWeight = FontWeight.SemiBold),
    labelSmall = TextStyle(fontSize = 14.sp, lineHeight = 19.sp, fontWeight = FontWeight.SemiBold),
)

private val LocalRoles = staticCompositionLocalOf { LightPalette.roles }

/** The meaning of colour here and now. */
val roles: Roles
    @Composable get() = LocalRoles.current

/** From here on the system asks for more than its ordinary contrast; it goes from -1 to 1. */
private const val CONTRAST_HIGH = 0.5f

@Composable
fun StowfastTheme(contrast: Contrast = Contrast.SYSTEM, content: @Composable () -> Unit) {
    val dark = isSystemInDarkTheme()
    val palette = when {
        contrast.high ?: systemContrastIsHigh() -> if (dark) DarkHighPalette else LightHighPalette
        else -> if (dark) DarkPalette else LightPalette
    }
    CompositionLocalProvider(LocalRoles provides palette.roles) {
        MaterialTheme(palette.scheme, typography = Letters, content = content)
    }
}

/** What the phone's own setting asks for, as long as it is on show. Before Android 14 there is none. */
@Composable
private fun systemContrastIsHigh(): Boolean {
    if (Build.VERSION.SDK_INT < Build.VERSION_CODES.UPSIDE_DOWN_CAKE) return false
    val context = LocalContext.current
    val modes = remember(context) { context.getSystemService(UiModeManager::class.java) }
    var contrast by remember(modes) { mutableFloatStateOf(modes.contrast) }
    DisposableEffect(modes) {
        val listener = UiModeManager.ContrastChangeListener { contrast = it }
        modes.addContrastChangeListener(context.mainExecutor, listener)
        onDispose { modes.removeContrastChangeListener(listener) }
    }
    return contrast >= CONTRAST_HIGH
}
