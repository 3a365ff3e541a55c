package org.stowfast.app.about

import androidx.compose.foundation.lazy.items
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.runtime.getValue
import androidx.compose.runtime.mutableStateOf
import androidx.compose.runtime.remember
import androidx.compose.runtime.saveable.rememberSaveable
import androidx.compose.runtime.setValue
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.LocalContext
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.semantics.stateDescription
import androidx.compose.ui.text.font.FontFamily
import org.stowfast.app.R
import org.stowfast.app.share.licences
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.Ways

@Composable
fun LicencesRoute(ways: Ways) {
    val resources = LocalContext.current.resources
    val all = remember { licences(resources.openRawResource(R.raw.licences).use { it.readBytes().decodeToString() }) }
    LicencesScreen(all, ways)
}

/** Each licence with the parts that are under it; a tap shows its text. */
@Composable
fun LicencesScreen(all: Licences, ways: Ways) {
    var open by rememberSaveable { mutableStateOf<String?>(null) }
    Page(stringResource(R.string.about_licences), ways, told = { licences(all) }) {
        item { Text(stringResource(R.string.licences_intro), style = MaterialTheme.typography.bodyLarge) }
        for ((licence, text) in all.texts) {
            val paragraphs = if (licence == open) text.split("\n\n") else emptyList()
            item(key = licence) { Licence(licence, licence == open) { open = licence.takeIf { it != open } } }
            items(paragraphs) { Text(it, style = MaterialTheme.typography.bodySmall) }
            items(all.parts.filter { licence in it.licences }) { Part(it) }
        }
    }
}

@Composable
private fun Licence(name: String, open: Boolean, onClick: () -> Unit) {
    val said = stringResource(if (open) R.string.routine_opened else R.string.routine_shut)
    Panel(
        Modifier.testTag("licence-$name").semantics { stateDescription = said },
        onClick = onClick,
        end = if (open) R.drawable.ic_up else R.drawable.ic_down,
    ) {
        Text(name, style = MaterialTheme.typography.titleMedium)
    }
}

@Composable
private fun Part(part: Part) {
    Text(part.name, style = MaterialTheme.typography.bodyMedium, fontFamily = FontFamily.Monospace)
    if (part.copyright.isNotEmpty()) {
        Text(part.copyright, style = MaterialTheme.typography.bodyMedium, color = MaterialTheme.colorScheme.onSurfaceVariant)
    }
}
