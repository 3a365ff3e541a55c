package org.stowfast.app.about

import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.ui.platform.LocalContext
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.unit.dp
import org.stowfast.app.R
import org.stowfast.app.crash.Crashes
import org.stowfast.app.frame.Place
import org.stowfast.app.share.about
import org.stowfast.app.ui.Door
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.Ways

/** The app itself. [crashed] tells whether there is a report of what went wrong. */
@Composable
fun AboutScreen(ways: Ways, crashed: Boolean, go: (Place) -> Unit) {
    val version = Crashes.version(LocalContext.current)
    Page(stringResource(R.string.about_heading), ways, told = { about(version) }) {
        item {
            Panel {
                Text(stringResource(R.string.about_version, version), style = MaterialTheme.typography.titleMedium)
                Text(stringResource(R.string.about_advises), style = MaterialTheme.typography.bodyLarge)
                Text(stringResource(R.string.about_private), style = MaterialTheme.typography.bodyLarge)
            }
        }
        item { Door(R.drawable.ic_list, R.string.about_licences, stringResource(R.string.about_licences_about), "licences") { go(Place.LICENCES) } }
        if (crashed) {
            item { Door(R.drawable.ic_note, R.string.crash_heading, stringResource(R.string.crash_offer), "crash") { go(Place.CRASH) } }
        }
    }
}
