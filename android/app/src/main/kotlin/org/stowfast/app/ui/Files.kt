package org.stowfast.app.ui

import android.content.Context
import android.net.Uri
import android.provider.DocumentsContract
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

/** As much as the engine takes in a file of everything, and more than any other file of ours holds. Unit: bytes. */
private const val READ_BYTES_MAX = 64_000_000

/** No text holds it. */
private const val NUL: Byte = 0

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

/** Lets a person say where a file is to go; [picked] is given it, still empty. What comes back takes the name to offer. */
@Composable
fun fileMaker(type: String, picked: (NewFile) -> Unit): (String) -> Unit {
    val context = LocalContext.current.applicationContext
    val maker = rememberLauncherForActivityResult(ActivityResultContracts.CreateDocument(type)) { uri ->
        if (uri != null) picked(NewFile(context, uri))
    }
    return { name -> maker.launch(name) }
}

/** A file that a person made, for something to be written into. */
class NewFile(private val context: Context, private val uri: Uri) {
    suspend fun name(): String = withContext(Dispatchers.IO) { nameOf(context, uri) }

    /** Whether all of [text] was written. Where not, the file is taken away again: half of it is of no use. */
    suspend fun write(text: String): Boolean {
        val whole = withContext(Dispatchers.IO) { put(text) }
        if (!whole) remove()
        return whole
    }

    suspend fun remove() = withContext(Dispatchers.IO) {
        try {
            DocumentsContract.deleteDocument(context.contentResolver, uri)
            Unit
        } catch (_: IOException) {
            // Whoever keeps the file may keep it: what failed was said.
        } catch (_: RuntimeException) {
            // As above: keepers of files answer with many of these.
        }
    }

    private fun put(text: String): Boolean = try {
        val stream = context.contentResolver.openOutputStream(uri, "wt")
        stream?.use { it.write(text.toByteArray(Charsets.UTF_8)) }
        stream != null
    } catch (_: IOException) {
        false
    } catch (_: SecurityException) {
        false
    }
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

/** The whole stream; null where it is longer than [limit], or no text: a film picked by mistake must not fill the memory. */
private fun InputStream.readUpTo(limit: Int): ByteArray? {
    val whole = ByteArrayOutputStream()
    val buffer = ByteArray(16 * 1024)
    while (true) {
        val count = read(buffer)
        if (count < 0) return whole.toByteArray()
        if (whole.size() + count > limit || (0 until count).any { buffer[it] == NUL }) return null
        whole.write(buffer, 0, count)
    }
}
