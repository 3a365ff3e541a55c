package org.stowfast.app.ui

import androidx.activity.compose.BackHandler
import androidx.compose.foundation.background
import androidx.compose.foundation.clickable
import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.Box
import androidx.compose.foundation.layout.BoxWithConstraints
import androidx.compose.foundation.layout.Column
import androidx.compose.foundation.layout.PaddingValues
import androidx.compose.foundation.layout.Row
import androidx.compose.foundation.layout.RowScope
import androidx.compose.foundation.layout.Spacer
import androidx.compose.foundation.layout.WindowInsets
import androidx.compose.foundation.layout.WindowInsetsSides
import androidx.compose.foundation.layout.asPaddingValues
import androidx.compose.foundation.layout.displayCutout
import androidx.compose.foundation.layout.fillMaxSize
import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.foundation.layout.heightIn
import androidx.compose.foundation.layout.imePadding
import androidx.compose.foundation.layout.navigationBars
import androidx.compose.foundation.layout.only
import androidx.compose.foundation.layout.padding
import androidx.compose.foundation.layout.safeDrawing
import androidx.compose.foundation.layout.size
import androidx.compose.foundation.layout.union
import androidx.compose.foundation.layout.widthIn
import androidx.compose.foundation.layout.windowInsetsPadding
import androidx.compose.foundation.lazy.LazyColumn
import androidx.compose.foundation.lazy.LazyListScope
import androidx.compose.foundation.lazy.LazyListState
import androidx.compose.foundation.lazy.rememberLazyListState
import androidx.compose.foundation.shape.RoundedCornerShape
import androidx.compose.material3.HorizontalDivider
import androidx.compose.material3.Icon
import androidx.compose.material3.IconButton
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Surface
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.runtime.LaunchedEffect
import androidx.compose.runtime.remember
import androidx.compose.runtime.snapshotFlow
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
import androidx.compose.ui.text.style.LineBreak
import androidx.compose.ui.unit.dp
import androidx.lifecycle.compose.LifecycleResumeEffect
import kotlinx.coroutines.flow.first
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
 * What belongs [beside] it follows the list, or stands to its right where the window is [wide]. What stays under the thumb is
 * then always at the right, so that the list to its left has all of the height. Going back is what the arrow does, here and
 * nowhere else.
 */
@Composable
fun Page(
    title: String,
    ways: Ways,
    trouble: Trouble? = null,
    list: LazyListState = rememberLazyListState(),
    bottom: (@Composable () -> Unit)? = null,
    told: (Told.() -> Unit)? = null,
    beside: Beside? = null,
    content: LazyListScope.() -> Unit,
) {
    BackHandler(ways.back != null) { ways.back?.invoke() }
    LaunchedEffect(trouble?.problem) { if (trouble != null) list.scrollToItem(0) }
    ComeBack(list)
    val halves = wide() && (beside != null || bottom != null)
    val side = beside?.takeIf { halves }
    if (side != null) ComeBack(side.list)
    Surface(Modifier.fillMaxSize(), color = MaterialTheme.colorScheme.background) {
        Column(horizontalAlignment = Alignment.CenterHorizontally) {
            val width = if (halves) PageWidth * 2 else PageWidth
            TopBar(title, ways, Modifier.windowInsetsPadding(insets(WindowInsetsSides.Top)).widthIn(max = width))
            Row(Modifier.weight(1f).windowInsetsPadding(insets()).widthIn(max = width).imePadding()) {
                PageList(list, "page", bottom == null || halves, Modifier.weight(1f)) {
                    if (trouble != null) item(key = "trouble") { TroublePanel(trouble) }
                    content()
                    if (side == null) beside?.content?.invoke(this)
                    if (told != null) item(key = "share-text") { ShareButton(title, told) }
                }
                if (halves) Right(side, bottom)
            }
            if (bottom != null && !halves) BottomBar(bottom)
        }
    }
}

/** The right half of a wide window: the list that stands [beside], if there is one, over what stays under the thumb. */
@Composable
private fun RowScope.Right(side: Beside?, bottom: (@Composable () -> Unit)?) = Column(Modifier.weight(1f)) {
    if (side == null) Spacer(Modifier.weight(1f)) else PageList(side.list, "beside", bottom == null, Modifier.weight(1f), side.content)
    if (bottom != null) BottomBar(bottom)
}

/** A second list of a page, with its own place to scroll to. */
class Beside(val list: LazyListState, val content: LazyListScope.() -> Unit)

/** Of [rows] that nothing leads, those that stand in the first list of a page and those [Beside] it. */
fun <T> halves(rows: List<T>): Pair<List<T>, List<T>> = ((rows.size + 1) / 2).let { rows.take(it) to rows.drop(it) }

/** From here on two lists fit side by side. Unit: dp. */
private const val WIDE_DP = 840

/** The same on a phone on its side, where there is no room but there. Unit: dp. */
private const val WIDE_SHORT_DP = 600

/** Whether the window is wide enough for two lists. */
@Composable
fun wide(): Boolean = LocalConfiguration.current.screenWidthDp >= if (short()) WIDE_SHORT_DP else WIDE_DP

/** Below this the screen is too short for two rows under the thumb, and everything stands closer. Unit: dp. */
private const val SHORT_DP = 480

/** Whether there is no height to spare, as on a phone on its side. */
@Composable
fun short(): Boolean = LocalConfiguration.current.screenHeightDp < SHORT_DP

/** What bars, cut-outs and the keyboard leave free at the sides, and at one more edge. */
@Composable
private fun insets(edge: WindowInsetsSides? = null): WindowInsets =
    WindowInsets.safeDrawing.only(if (edge == null) WindowInsetsSides.Horizontal else WindowInsetsSides.Horizontal + edge)

/** It runs on below the bar of the system where it is [last], and its last item can still be scrolled clear of that. */
@Composable
private fun PageList(list: LazyListState, tag: String, last: Boolean, modifier: Modifier, content: LazyListScope.() -> Unit) {
    val gap = if (short()) 8.dp else 12.dp
    val below = WindowInsets.navigationBars.union(WindowInsets.displayCutout).asPaddingValues().calculateBottomPadding()
    LazyColumn(
        modifier.fillMaxWidth().testTag(tag),
        list,
        contentPadding = PaddingValues(start = 16.dp, end = 16.dp, top = 4.dp, bottom = if (last) 24.dp + below else 24.dp),
        verticalArrangement = Arrangement.spacedBy(gap),
        content = content,
    )
}

/** What a fresh process finds saved is scrolled to as soon as the engine has answered with that much. */
@Composable
private fun ComeBack(list: LazyListState) {
    val index = remember(list) { list.firstVisibleItemIndex }
    val offset = remember(list) { list.firstVisibleItemScrollOffset }
    LaunchedEffect(list) {
        if (index + offset == 0) return@LaunchedEffect
        snapshotFlow { list.layoutInfo.totalItemsCount }.first { it > index }
        if (list.firstVisibleItemIndex + list.firstVisibleItemScrollOffset == 0) list.scrollToItem(index, offset)
    }
}

/** It reaches down behind the bar of the system. */
@Composable
private fun BottomBar(content: @Composable () -> Unit) {
    Surface(color = MaterialTheme.colorScheme.surface) {
        HorizontalDivider(color = MaterialTheme.colorScheme.outlineVariant)
        Box(Modifier.fillMaxWidth().windowInsetsPadding(insets(WindowInsetsSides.Bottom)), Alignment.Center) {
            Box(Modifier.widthIn(max = PageWidth).fillMaxWidth().testTag("bottom").padding(horizontal = 16.dp, vertical = if (short()) 6.dp else 10.dp)) { content() }
        }
    }
}

/** From here on two things with letters of ordinary size fit side by side under the thumb. */
private val SideBySide = 380.dp

/** The one thing to do at the bottom edge, and the [lesser] one above it, or beside it where the screen is short. */
@Composable
fun UnderThumb(lesser: (@Composable () -> Unit)?, main: @Composable () -> Unit) = BoxWithConstraints {
    if (lesser != null && short() && maxWidth >= SideBySide * LocalDensity.current.fontScale) {
        Row(verticalAlignment = Alignment.CenterVertically, horizontalArrangement = Arrangement.spacedBy(8.dp)) {
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

/** From this size of letters on there is room for fewer things at once. */
private const val LARGE = 1.3f

/** Whether letters are so large that what else stood side by side, or open, cannot. */
@Composable
fun largeLetters(): Boolean = LocalDensity.current.fontScale >= LARGE

/** With large letters *Emergency* has a row of its own: its word is never left out. */
@Composable
private fun TopBar(title: String, ways: Ways, modifier: Modifier) {
    val large = largeLetters()
    Column(modifier.fillMaxWidth()) {
        Row(
            Modifier.fillMaxWidth().heightIn(min = if (short()) 52.dp else 60.dp).padding(start = if (ways.back == null) 16.dp else 4.dp, end = 16.dp),
            verticalAlignment = Alignment.CenterVertically,
            horizontalArrangement = Arrangement.spacedBy(4.dp),
        ) {
            if (ways.back != null) {
                IconButton(ways.back) { Icon(painterResource(R.drawable.ic_back), stringResource(R.string.back), Modifier.size(grown(24.dp))) }
            }
            Text(
                title,
                Modifier.weight(1f).padding(top = 6.dp, end = 6.dp, bottom = 6.dp).semantics { heading() },
                style = MaterialTheme.typography.titleLarge.copy(lineBreak = LineBreak.Heading),
            )
            if (ways.emergency != null && !large) EmergencyButton(ways.emergency)
        }
        if (ways.emergency != null && large) {
            Box(Modifier.padding(start = 16.dp, end = 16.dp, bottom = 8.dp)) { EmergencyButton(ways.emergency) }
        }
    }
}

/** One tap from everywhere. */
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
        Text(name, color = tone.ink, style = MaterialTheme.typography.labelMedium)
    }
}
