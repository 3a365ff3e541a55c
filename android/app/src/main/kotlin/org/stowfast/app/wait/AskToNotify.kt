package org.stowfast.app.wait

import android.Manifest
import androidx.activity.compose.rememberLauncherForActivityResult
import androidx.activity.result.contract.ActivityResultContracts
import androidx.compose.runtime.Composable
import androidx.compose.runtime.LaunchedEffect
import androidx.compose.ui.platform.LocalContext
import org.stowfast.app.StowfastApp

/** At the first wait or the first forecast, and never again, the phone asks whether it may notify. Every page works where it may not. */
@Composable
fun AskToNotify(waiting: Boolean) {
    val waits = (LocalContext.current.applicationContext as? StowfastApp)?.waits ?: return
    val ask = rememberLauncherForActivityResult(ActivityResultContracts.RequestPermission()) { }
    LaunchedEffect(waiting) {
        if (waiting && waits.mayAsk()) ask.launch(Manifest.permission.POST_NOTIFICATIONS)
    }
}
