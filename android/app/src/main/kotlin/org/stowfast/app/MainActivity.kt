package org.stowfast.app

import android.content.Context
import android.content.Intent
import android.content.res.Configuration
import android.os.Bundle
import androidx.activity.ComponentActivity
import androidx.activity.compose.setContent
import androidx.activity.enableEdgeToEdge
import androidx.compose.runtime.LaunchedEffect
import androidx.compose.runtime.collectAsState
import androidx.compose.runtime.getValue
import androidx.compose.runtime.mutableStateOf
import androidx.compose.runtime.remember
import androidx.compose.runtime.setValue
import org.stowfast.app.frame.Frame
import org.stowfast.app.frame.Place
import org.stowfast.app.theme.ThemeStore
import org.stowfast.app.ui.StowfastTheme

class MainActivity : ComponentActivity() {
    private var sentTo by mutableStateOf<Place?>(null)
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
        val app = application as StowfastApp
        // What comes back from a saved state has followed its intent already.
        if (savedInstanceState == null) sentTo = intent.leadsTo()
        val engine = app.engine()
        setContent {
            val chosen by theme.state.collectAsState()
            val drawn = remember { chosen.brightness }
            LaunchedEffect(chosen.brightness) { if (chosen.brightness != drawn) recreate() }
            StowfastTheme(chosen.contrast) { Frame(engine, app.where, app.crashes, sentTo) { sentTo = null } }
        }
    }

    override fun onNewIntent(intent: Intent) {
        super.onNewIntent(intent)
        sentTo = intent.leadsTo()
    }

    override fun onDestroy() {
        // Whoever leaves the app on purpose begins at home next time.
        if (isFinishing) (application as StowfastApp).where.forget()
        super.onDestroy()
    }

    private fun Intent.leadsTo(): Place? = when (action) {
        LIFE -> Place.LIFE
        ROUTINE -> Place.ROUTINE
        RESERVES -> Place.RESERVES
        else -> null
    }

    companion object {
        /** Leads to what to do in an emergency; the launcher's shortcut says it too. */
        const val LIFE = "org.stowfast.app.LIFE"

        /** Leads to the routine under way. */
        const val ROUTINE = "org.stowfast.app.ROUTINE"

        /** Leads to what is left of everything. */
        const val RESERVES = "org.stowfast.app.RESERVES"
    }
}
