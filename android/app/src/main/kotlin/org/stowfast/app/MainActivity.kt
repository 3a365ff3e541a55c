package org.stowfast.app

import android.os.Bundle
import androidx.activity.ComponentActivity
import androidx.activity.compose.setContent
import androidx.activity.enableEdgeToEdge
import org.stowfast.app.frame.Frame
import org.stowfast.app.ui.StowfastTheme

class MainActivity : ComponentActivity() {
    override fun onCreate(savedInstanceState: Bundle?) {
        super.onCreate(savedInstanceState)
        enableEdgeToEdge()
        val engine = (application as StowfastApp).engine()
        setContent { StowfastTheme { Frame(engine) } }
    }
}
