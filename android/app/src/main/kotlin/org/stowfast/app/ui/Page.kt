package org.stowfast.app.ui

import androidx.compose.foundation.background
import androidx.compose.foundation.clickable
import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.Box
import androidx.compose.foundation.layout.Column
import androidx.compose.foundation.layout.PaddingValues
import androidx.compose.foundation.layout.Row
import androidx.compose.foundation.layout.WindowInsets
import androidx.compose.foundation.layout.fillMaxSize
import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.foundation.layout.heightIn
import androidx.compose.foundation.layout.padding
import androidx.compose.foundation.layout.safeDrawing
import androidx.compose.foundation.layout.size
import androidx.compose.foundation.layout.widthIn
import androidx.compose.foundation.layout.windowInsetsPadding
import androidx.compose.foundation.lazy.LazyColumn
import androidx.compose.foundation.lazy.LazyListScope
import androidx.compose.foundation.lazy.LazyListState
import androidx.compose.foundation.lazy.rememberLazyListState
import androidx.compose.foundation.shape.RoundedCornerShape
import androidx.compose.material3.Icon
import androidx.compose.material3.IconButton
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Surface
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.runtime.LaunchedEffect
import androidx.compose.ui.Alignment
import androidx.compose.ui.Modifier
import androidx.compose.ui.draw.clip
import androidx.compose.ui.platform.LocalConfiguration
import androidx.compose.ui.platform.LocalDensity
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.painterResource
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.Role
import androidx.compose.ui.semantics.contentDescription
import androidx.compose.ui.semantics.heading
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.text.style.TextOverflow
import androidx.compose.ui.unit.dp
import androidx.lifecycle.compose.LifecycleResumeEffect
import org.stowfast.app.R
import org.stowfast.app.share.ShareButton
import org.stowfast.app.share.Told

/** Where a page leads, whatever it shows. */
data class Ways(val back: (() -> Unit)?, val emergency: (() -> Unit)?)

private val PageWidth = 640.dp

/** Has the model of a page read anew whenever the page is shown. */
@Composable
fun WhenShown(model: Any, shown: () -> Unit) {
    LifecycleResumeEffect(model) {
        shown()
        onPauseOrDispose { }
    }
}

/**
 * One page: its title, a list that scrolls, and what stays at the bottom edge under the thumb. What failed comes first.
 * [told] says in text what the page says, to be shared; a page without it has nothing to share.
 */
@Composable
fun Page(
    title: String,
    ways: Ways,
    trouble: Trouble? = null,
    list: LazyListState = rememberLazyListState(),
    bottom: (@Composable () -> Unit)? = null,
    told: (Told.() -> Unit)? = null,
    content: LazyListScope.() -> Unit,
) {
    LaunchedEffect(trouble?.problem) { if (trouble != null) list.scrollToItem(0) }
    Surface(Modifier.fillMaxSize(), color = MaterialTheme.colorScheme.background) {
        Column(
            Modifier.windowInsetsPadding(WindowInsets.safeDrawing),
            horizontalAlignment = Alignment.CenterHorizontally,
        ) {
            TopBar(title, ways, Modifier.widthIn(max = PageWidth))
            LazyColumn(
                Modifier.weight(1f).widthIn(max = PageWidth).fillMaxWidth().testTag("page"),
                list,
                contentPadding = PaddingValues(start = 16.dp, end = 16.dp, top = 4.dp, bottom = 24.dp),
                verticalArrangement = Arrangement.spacedBy(12.dp),
            ) {
                if (trouble != null) item(key = "trouble") { TroublePanel(trouble) }
                content()
                if (told != null) item(key = "share-text") { ShareButton(title, told) }
            }
            if (bottom != null) {
                Surface(color = MaterialTheme.colorScheme.surface, shadowElevation = 8.dp) {
                    Box(Modifier.fillMaxWidth(), contentAlignment = Alignment.Center) {
                        Box(Modifier.widthIn(max = PageWidth).padding(horizontal = 16.dp, vertical = 10.dp)) { bottom() }
                    }
                }
            }
        }
    }
}

/** Below this the screen is too short for two rows under the thumb. Unit: dp. */
private const val SHORT_DP = 480

/** The one thing to do at the bottom edge, and the [lesser] one above it, or beside it where the screen is short. */
@Composable
fun UnderThumb(lesser: (@Composable () -> Unit)?, main: @Composable () -> Unit) {
    if (lesser != null && LocalConfiguration.current.screenHeightDp < SHORT_DP) {
        Row(verticalAlignment = Alignment.CenterVertically, horizontalArrangement = Arrangement.spacedBy(16.dp)) {
            Box(Modifier.weight(1f)) { lesser() }
            Box(Modifier.weight(1f)) { main() }
        }
    } else {
        Column(verticalArrangement = Arrangement.spacedBy(6.dp)) {
            lesser?.invoke()
            main()
        }
    }
}

@Composable
private fun TopBar(title: String, ways: Ways, modifier: Modifier) {
    Row(
        modifier.fillMaxWidth().heightIn(min = 60.dp).padding(start = if (ways.back == null) 16.dp else 4.dp, end = 16.dp),
        verticalAlignment = Alignment.CenterVertically,
        horizontalArrangement = Arrangement.spacedBy(4.dp),
    ) {
        if (ways.back != null) {
            IconButton(ways.back) { Icon(painterResource(R.drawable.ic_back), stringResource(R.string.back), Modifier.size(grown(24.dp))) }
        }
        Text(
            title,
            Modifier.weight(1f).padding(vertical = 6.dp).semantics { heading() },
            style = MaterialTheme.typography.titleLarge,
            maxLines = 2,
            overflow = TextOverflow.Ellipsis,
        )
        if (ways.emergency != null) EmergencyButton(ways.emergency)
    }
}

/** One tap from everywhere. Its word gives way to the title where letters are large; its name stays. */
@Composable
private fun EmergencyButton(onClick: () -> Unit) {
    val name = stringResource(R.string.emergency)
    val tone = roles.emergency
    Row(
        Modifier
            .clip(RoundedCornerShape(24.dp))
            .background(tone.field)
            .clickable(role = Role.Button, onClick = onClick)
            .semantics(mergeDescendants = true) { contentDescription = name }
            .heightIn(min = 48.dp)
            .padding(horizontal = 14.dp),
        verticalAlignment = Alignment.CenterVertically,
        horizontalArrangement = Arrangement.spacedBy(8.dp),
    ) {
        Icon(painterResource(R.drawable.ic_emergency), null, Modifier.size(20.dp), tint = tone.ink)
        if (LocalDensity.current.fontScale < 1.3f) {
            Text(name, color = tone.ink, style = MaterialTheme.typography.labelMedium)
        }
    }
}
