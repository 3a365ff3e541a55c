package org.stowfast.app

import android.content.Context
import android.content.res.Configuration
import android.os.Bundle
import androidx.activity.ComponentActivity
import androidx.activity.compose.setContent
import androidx.activity.enableEdgeToEdge
import androidx.compose.runtime.LaunchedEffect
import androidx.compose.runtime.collectAsState
import androidx.compose.runtime.getValue
import androidx.compose.runtime.remember
import org.stowfast.app.frame.Frame
import org.stowfast.app.theme.ThemeStore
import org.stowfast.app.ui.StowfastTheme

class MainActivity : ComponentActivity() {
    private lateinit var theme: ThemeStore

    /** Light or dark where it was chosen here: resources, bars and colours all follow the configuration. */
    override fun attachBaseContext(base: Context) {
        super.attachBaseContext(base)
        theme = (base.applicationContext as StowfastApp).theme
        theme.state.value.brightness.night?.let { night ->
            applyOverrideConfiguration(Configuration().apply {
                fontScale = 0f // As it is: a new configuration would set it to 1.
                uiMode = night
            })
        }
    }

    override fun onCreate(savedInstanceState: Bundle?) {
        super.onCreate(savedInstanceState)
        enableEdgeToEdge()
        val engine = (application as StowfastApp).engine()
        setContent {
            val chosen by theme.state.collectAsState()
            val drawn = remember { chosen.brightness }
            LaunchedEffect(chosen.brightness) { if (chosen.brightness != drawn) recreate() }
            StowfastTheme(chosen.contrast) { Frame(engine) }
        }
    }
}
