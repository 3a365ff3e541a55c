package org.stowfast.app.share

import android.content.Context
import android.content.Intent
import androidx.annotation.StringRes
import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.runtime.Composable
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.LocalContext
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import org.stowfast.app.R
import org.stowfast.app.ui.QuietButton

/**
 * What a page says, as plain text: a line for each thing that stands on it, in reading order. What a tap opens stands in
 * it too; what is there only to be tapped does not. Each page has its function in this package.
 */
class Told(val context: Context) {
    private val lines = mutableListOf<String>()

    /** A line; nothing where there is none. */
    fun say(line: String?) {
        if (!line.isNullOrBlank()) lines += line
    }

    fun say(@StringRes line: Int, vararg with: Any) = say(context.getString(line, *with))

    /** Lines that belong together. */
    fun list(all: List<String>) = all.forEach { say("– $it") }

    /** What on the page has the mark of danger. */
    fun mind(caution: String) = say("! $caution")

    /** Begins a part of the page. */
    fun part() {
        if (!lines.lastOrNull().isNullOrEmpty()) lines += ""
    }

    fun head(@StringRes title: Int) {
        part()
        say(title)
    }

    override fun toString(): String = lines.joinToString("\n").trim()
}

/** What [page] says once the page is [ready]: there is nothing to be shared of one that waits. */
fun telling(ready: Boolean, page: Told.() -> Unit): (Told.() -> Unit)? = page.takeIf { ready }

/** Gives what a page says to whatever the phone can send text with. */
@Composable
fun ShareButton(title: String, told: Told.() -> Unit) {
    val context = LocalContext.current
    QuietButton(
        stringResource(R.string.share_as_text),
        { context.startActivity(Intent.createChooser(asText(context, title, told), null)) },
        Modifier.fillMaxWidth().testTag("share-text"),
        icon = R.drawable.ic_share,
    )
}

private fun asText(context: Context, title: String, told: Told.() -> Unit): Intent {
    val page = Told(context).apply {
        say(title)
        part()
        told()
    }
    return Intent(Intent.ACTION_SEND)
        .setType("text/plain")
        .putExtra(Intent.EXTRA_SUBJECT, title)
        .putExtra(Intent.EXTRA_TEXT, page.toString())
}
