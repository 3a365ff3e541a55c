package org.stowfast.app.theme

import android.content.res.Configuration
import androidx.annotation.StringRes
import org.stowfast.app.R

/** Light or dark; [night] is what the configuration is told, null where the phone decides. */
enum class Brightness(@StringRes val word: Int, val night: Int?) {
    SYSTEM(R.string.theme_system, null),
    LIGHT(R.string.theme_light, Configuration.UI_MODE_NIGHT_NO),
    DARK(R.string.theme_dark, Configuration.UI_MODE_NIGHT_YES),
}

/** How strongly things stand out; [high] is null where the phone decides, if it can. */
enum class Contrast(@StringRes val word: Int, val high: Boolean?) {
    SYSTEM(R.string.theme_system, null),
    ORDINARY(R.string.theme_ordinary, false),
    HIGH(R.string.theme_high, true),
}

/** How the app looks, as it was chosen here. */
data class ThemeState(val brightness: Brightness, val contrast: Contrast)
