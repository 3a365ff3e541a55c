package org.stowfast.app.crash

import android.content.Context
import android.content.Intent
import android.net.Uri
import androidx.activity.compose.rememberLauncherForActivityResult
import androidx.activity.result.contract.ActivityResultContracts.CreateDocument
import androidx.compose.foundation.layout.Box
import androidx.compose.foundation.layout.WindowInsets
import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.foundation.layout.padding
import androidx.compose.foundation.layout.safeDrawing
import androidx.compose.foundation.layout.widthIn
import androidx.compose.foundation.layout.windowInsetsPadding
import androidx.compose.foundation.lazy.items
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.runtime.getValue
import androidx.compose.runtime.mutableStateOf
import androidx.compose.runtime.remember
import androidx.compose.runtime.rememberCoroutineScope
import androidx.compose.runtime.setValue
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.LocalContext
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.LiveRegionMode
import androidx.compose.ui.semantics.liveRegion
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.text.font.FontFamily
import androidx.compose.ui.unit.dp
import kotlinx.coroutines.Dispatchers
import kotlinx.coroutines.launch
import kotlinx.coroutines.withContext
import org.stowfast.app.R
import org.stowfast.app.ui.Caution
import org.stowfast.app.ui.MainButton
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.QuietButton
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.roles
import java.io.IOException

/** At the start after the app stopped by itself. [onAnswer] is given whether somebody wants to see the report. */
@Composable
fun CrashOffer(modifier: Modifier, onAnswer: (Boolean) -> Unit) {
    Box(modifier.windowInsetsPadding(WindowInsets.safeDrawing).padding(12.dp).widthIn(max = 640.dp)) {
        Panel(Modifier.testTag("crash-offer").semantics { liveRegion = LiveRegionMode.Polite }, tone = roles.unknown) {
            Text(stringResource(R.string.crash_offer), style = MaterialTheme.typography.titleMedium)
            QuietButton(stringResource(R.string.crash_see), { onAnswer(true) }, Modifier.fillMaxWidth())
            MainButton(stringResource(R.string.crash_later), { onAnswer(false) })
        }
    }
}

@Composable
fun CrashRoute(ways: Ways, crashes: Crashes) {
    val context = LocalContext.current
    val scope = rememberCoroutineScope()
    var report by remember { mutableStateOf(crashes.report) }
    var unsaved by remember { mutableStateOf(false) }
    val save = rememberLauncherForActivityResult(CreateDocument(TEXT)) { uri ->
        val text = report
        if (uri != null && text != null) scope.launch { unsaved = !withContext(Dispatchers.IO) { write(context, uri, text) } }
    }
    CrashScreen(report, unsaved, ways) { deed ->
        when (deed) {
            CrashDeed.SAVE -> save.launch("stowfast-report.txt")
            CrashDeed.SHARE -> context.startActivity(Intent.createChooser(sharing(report.orEmpty()), null))
            CrashDeed.DELETE -> {
                crashes.delete()
                report = null
            }
        }
    }
}

/** What can be done with the report. Nothing happens to it but by one of these. */
enum class CrashDeed { SAVE, SHARE, DELETE }

@Composable
fun CrashScreen(report: String?, unsaved: Boolean, ways: Ways, onDeed: (CrashDeed) -> Unit) {
    Page(stringResource(R.string.crash_heading), ways) {
        if (report == null) {
            item { Panel { Text(stringResource(R.string.crash_none), style = MaterialTheme.typography.bodyLarge) } }
            return@Page
        }
        item {
            Panel {
                Text(stringResource(R.string.crash_about), style = MaterialTheme.typography.bodyLarge)
                if (unsaved) Caution(stringResource(R.string.crash_not_saved))
                QuietButton(stringResource(R.string.crash_save), { onDeed(CrashDeed.SAVE) }, Modifier.fillMaxWidth(), R.drawable.ic_file)
                QuietButton(stringResource(R.string.crash_share), { onDeed(CrashDeed.SHARE) }, Modifier.fillMaxWidth(), R.drawable.ic_share)
                QuietButton(stringResource(R.string.crash_delete), { onDeed(CrashDeed.DELETE) }, Modifier.fillMaxWidth())
            }
        }
        items(report.lines().chunked(LINES_AT_ONCE)) { lines ->
            Text(lines.joinToString("\n"), style = MaterialTheme.typography.bodySmall, fontFamily = FontFamily.Monospace)
        }
    }
}

/** A long text is drawn in pieces. */
private const val LINES_AT_ONCE = 40

private const val TEXT = "text/plain"

private fun sharing(report: String) = Intent(Intent.ACTION_SEND).setType(TEXT).putExtra(Intent.EXTRA_TEXT, report)

private fun write(context: Context, uri: Uri, text: String): Boolean = try {
    context.contentResolver.openOutputStream(uri)?.use { it.write(text.toByteArray()) } != null
} catch (_: IOException) {
    false
} catch (_: SecurityException) {
    false
}
