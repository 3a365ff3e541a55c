package org.stowfast.app.about

import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.LocalContext
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.unit.dp
import org.stowfast.app.R
import org.stowfast.app.crash.Crashes
import org.stowfast.app.frame.Place
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.Ways

/** Leads to [AboutScreen]. */
@Composable
fun AboutDoor(onClick: () -> Unit) = Door("about", R.string.about_heading, R.string.about_door, R.drawable.ic_question, onClick)

/** The app itself. [crashed] tells whether there is a report of what went wrong. */
@Composable
fun AboutScreen(ways: Ways, crashed: Boolean, go: (Place) -> Unit) {
    val version = Crashes.version(LocalContext.current)
    Page(stringResource(R.string.about_heading), ways) {
        item {
            Panel {
                Text(stringResource(R.string.about_version, version), style = MaterialTheme.typography.titleMedium)
                Text(stringResource(R.string.about_advises), style = MaterialTheme.typography.bodyLarge)
                Text(stringResource(R.string.about_private), style = MaterialTheme.typography.bodyLarge)
            }
        }
        item { Door("licences", R.string.about_licences, R.string.about_licences_about, R.drawable.ic_list) { go(Place.LICENCES) } }
        if (crashed) {
            item { Door("crash", R.string.crash_heading, R.string.crash_offer, R.drawable.ic_note) { go(Place.CRASH) } }
        }
    }
}

@Composable
private fun Door(tag: String, title: Int, about: Int, icon: Int, onClick: () -> Unit) {
    Panel(Modifier.testTag(tag), onClick = onClick, end = R.drawable.ic_forward) {
        Marked(icon, size = 26.dp) {
            Text(stringResource(title), style = MaterialTheme.typography.titleMedium)
            Text(stringResource(about), style = MaterialTheme.typography.bodyMedium)
        }
    }
}
