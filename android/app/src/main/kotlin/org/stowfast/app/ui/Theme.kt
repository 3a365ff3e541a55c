package org.stowfast.app.ui

import androidx.compose.foundation.isSystemInDarkTheme
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Typography
import androidx.compose.material3.darkColorScheme
import androidx.compose.material3.lightColorScheme
import androidx.compose.runtime.Composable
import androidx.compose.runtime.CompositionLocalProvider
import androidx.compose.runtime.Immutable
import androidx.compose.runtime.staticCompositionLocalOf
import androidx.compose.ui.graphics.Color
import androidx.compose.ui.text.TextStyle
import androidx.compose.ui.text.font.FontWeight
import androidx.compose.ui.unit.sp

/** A field of colour, what is written on it, and a mark strong enough to stand alone. */
@Immutable
data class Tone(val field: Color, val ink: Color, val mark: Color)

/** The colours that carry meaning. Each always comes with a shape and a word. */
@Immutable
data class Roles(val clear: Tone, val blocked: Tone, val unknown: Tone, val quiet: Tone, val emergency: Tone)

private val LightRoles = Roles(
    clear = Tone(Color(0xFFD9EEDF), Color(0xFF0B3D25), Color(0xFF126B43)),
    blocked = Tone(Color(0xFFFBE0D8), Color(0xFF5C1709), Color(0xFFB0301A)),
    unknown = Tone(Color(0xFFFAE9C3), Color(0xFF473200), Color(0xFF8A5C00)),
    quiet = Tone(Color(0xFFE6ECE6), Color(0xFF1B2B28), Color(0xFF0B5A54)),
    emergency = Tone(Color(0xFFA8281B), Color(0xFFFFFFFF), Color(0xFFA8281B)),
)

private val DarkRoles = Roles(
    clear = Tone(Color(0xFF12352A), Color(0xFFCDEFDB), Color(0xFF74D6A2)),
    blocked = Tone(Color(0xFF481B12), Color(0xFFFFDCD2), Color(0xFFFF9E86)),
    unknown = Tone(Color(0xFF3C2D09), Color(0xFFFAE4B4), Color(0xFFF1C158)),
    quiet = Tone(Color(0xFF22302D), Color(0xFFDCE7E3), Color(0xFF86D6CB)),
    emergency = Tone(Color(0xFFFFB4A6), Color(0xFF4A0D05), Color(0xFFFFB4A6)),
)

private val LightScheme = lightColorScheme(
    primary = Color(0xFF0B5A54),
    onPrimary = Color(0xFFFFFFFF),
    primaryContainer = Color(0xFFCDE8E2),
    onPrimaryContainer = Color(0xFF04322E),
    background = Color(0xFFF6F4EC),
    onBackground = Color(0xFF17211F),
    surface = Color(0xFFFFFEFA),
    onSurface = Color(0xFF17211F),
    onSurfaceVariant = Color(0xFF4A5855),
    surfaceContainerHigh = Color(0xFFFFFEFA),
    surfaceContainerHighest = Color(0xFFECEDE4),
    outline = Color(0xFF77847F),
    outlineVariant = Color(0xFFD8DCD2),
    error = Color(0xFFA8281B),
)

private val DarkScheme = darkColorScheme(
    primary = Color(0xFF86D6CB),
    onPrimary = Color(0xFF00322E),
    primaryContainer = Color(0xFF134742),
    onPrimaryContainer = Color(0xFFCDEDE7),
    background = Color(0xFF0E1413),
    onBackground = Color(0xFFE7EDEA),
    surface = Color(0xFF19211F),
    onSurface = Color(0xFFE7EDEA),
    onSurfaceVariant = Color(0xFFAEBBB6),
    surfaceContainerHigh = Color(0xFF19211F),
    surfaceContainerHighest = Color(0xFF26312E),
    outline = Color(0xFF83918C),
    outlineVariant = Color(0xFF33403C),
    error = Color(0xFFFFB4A6),
)

private val Letters = Typography(
    displaySmall = TextStyle(fontSize = 32.sp, lineHeight = 38.sp, fontWeight = FontWeight.Bold),
    headlineMedium = TextStyle(fontSize = 26.sp, lineHeight = 33.sp, fontWeight = FontWeight.SemiBold),
    titleLarge = TextStyle(fontSize = 20.sp, lineHeight = 26.sp, fontWeight = FontWeight.SemiBold),
    titleMedium = TextStyle(fontSize = 17.sp, lineHeight = 23.sp, fontWeight = FontWeight.SemiBold),
    bodyLarge = TextStyle(fontSize = 17.sp, lineHeight = 24.sp),
    bodyMedium = TextStyle(fontSize = 15.sp, lineHeight = 21.sp),
    bodySmall = TextStyle(fontSize = 14.sp, lineHeight = 19.sp),
    labelLarge = TextStyle(fontSize = 17.sp, lineHeight = 22.sp, fontWeight = FontWeight.SemiBold),
    labelMedium = TextStyle(fontSize = 14.sp, lineHeight = 19.sp, fontWeight = FontWeight.SemiBold),
)

private val LocalRoles = staticCompositionLocalOf { LightRoles }

/** The meaning of colour here and now. */
val roles: Roles
    @Composable get() = LocalRoles.current

@Composable
fun StowfastTheme(content: @Composable () -> Unit) {
    val dark = isSystemInDarkTheme()
    CompositionLocalProvider(LocalRoles provides if (dark) DarkRoles else LightRoles) {
        MaterialTheme(if (dark) DarkScheme else LightScheme, typography = Letters, content = content)
    }
}
