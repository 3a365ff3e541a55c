package org.stowfast.app.ui

import android.content.Context
import android.net.Uri
import android.provider.OpenableColumns
import androidx.activity.compose.rememberLauncherForActivityResult
import androidx.activity.result.contract.ActivityResultContracts
import androidx.compose.runtime.Composable
import androidx.compose.runtime.rememberCoroutineScope
import androidx.compose.ui.platform.LocalContext
import kotlinx.coroutines.Dispatchers
import kotlinx.coroutines.launch
import kotlinx.coroutines.withContext
import java.io.ByteArrayOutputStream
import java.io.IOException
import java.io.InputStream

/** More than any file of ours holds; a film picked by mistake must not fill the memory. Unit: bytes. */
private const val READ_BYTES_MAX = 8 * 1024 * 1024

/** Lets a person pick a file; [picked] is given its name and its text, null where it could not be read at all. */
@Composable
fun filePicker(picked: (String, String?) -> Unit): () -> Unit {
    val context = LocalContext.current
    val scope = rememberCoroutineScope()
    val picker = rememberLauncherForActivityResult(ActivityResultContracts.OpenDocument()) { uri ->
        if (uri != null) {
            scope.launch {
                val (name, text) = withContext(Dispatchers.IO) { nameOf(context, uri) to textOf(context, uri) }
                picked(name, text)
            }
        }
    }
    return { picker.launch(arrayOf("*/*")) }
}

private fun nameOf(context: Context, uri: Uri): String =
    context.contentResolver.query(uri, arrayOf(OpenableColumns.DISPLAY_NAME), null, null, null)?.use {
        if (it.moveToFirst()) it.getString(0) else null
    } ?: uri.lastPathSegment.orEmpty()

private fun textOf(context: Context, uri: Uri): String? = try {
    context.contentResolver.openInputStream(uri)?.use { stream ->
        stream.readUpTo(READ_BYTES_MAX)?.toString(Charsets.UTF_8)
    }
} catch (_: IOException) {
    null
} catch (_: SecurityException) {
    null
}

/** The whole stream, or null where it is longer than [limit]. */
private fun InputStream.readUpTo(limit: Int): ByteArray? {
    val whole = ByteArrayOutputStream()
    val buffer = ByteArray(16 * 1024)
    while (true) {
        val count = read(buffer)
        if (count < 0) return whole.toByteArray()
        if (whole.size() + count > limit) return null
        whole.write(buffer, 0, count)
    }
}
