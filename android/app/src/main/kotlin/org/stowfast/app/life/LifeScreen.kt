package org.stowfast.app.life

import android.content.ActivityNotFoundException
import android.content.Intent
import android.net.Uri
import androidx.annotation.ArrayRes
import androidx.annotation.StringRes
import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.Column
import androidx.compose.foundation.lazy.LazyListScope
import androidx.compose.foundation.lazy.items
import androidx.compose.foundation.lazy.rememberLazyListState
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.runtime.getValue
import androidx.compose.runtime.mutableStateOf
import androidx.compose.runtime.saveable.rememberSaveable
import androidx.compose.runtime.setValue
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.LocalContext
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringArrayResource
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.LiveRegionMode
import androidx.compose.ui.semantics.heading
import androidx.compose.ui.semantics.liveRegion
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.unit.dp
import org.stowfast.app.R
import org.stowfast.app.share.life
import org.stowfast.app.ui.Beside
import org.stowfast.app.ui.Folding
import org.stowfast.app.ui.Lines
import org.stowfast.app.ui.MainButton
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.halves
import org.stowfast.app.ui.largeLetters
import org.stowfast.app.ui.roles

enum class Peril(@StringRes val title: Int, @ArrayRes val lines: Int) {
    CARBON_MONOXIDE(R.string.life_co, R.array.life_co_lines),
    GAS(R.string.life_gas, R.array.life_gas_lines),
    SMOKE(R.string.life_smoke, R.array.life_smoke_lines),
    FIRE(R.string.life_fire, R.array.life_fire_lines),
}

/**
 * What to do when people are in danger. Plain resources: no engine, no vehicle, no record is needed. With large letters all
 * perils stand on the first screen, each to be opened by a tap, before anything else.
 */
@Composable
fun LifeScreen(ways: Ways) {
    val besides = rememberLazyListState()
    val folded = largeLetters()
    val (first, others) = halves(Peril.entries)
    Page(
        stringResource(R.string.emergency),
        ways,
        bottom = { Dial() },
        told = { life() },
        beside = Beside(besides) {
            perils(others, folded)
            if (folded) item { Number() }
            item { Text(stringResource(R.string.life_foot), style = MaterialTheme.typography.bodyMedium) }
        },
    ) {
        item { Intro(folded) }
        perils(first, folded)
    }
}

@Composable
private fun Intro(folded: Boolean) = Column(verticalArrangement = Arrangement.spacedBy(4.dp)) {
    val style = MaterialTheme.typography
    Text(stringResource(R.string.life_intro), style = if (folded) style.titleMedium else style.headlineMedium)
    if (!folded) Number()
}

@Composable
private fun Number() = Text(stringResource(R.string.life_dial_about), style = MaterialTheme.typography.titleMedium)

private fun LazyListScope.perils(perils: List<Peril>, folded: Boolean) = items(perils) { peril ->
    var open by rememberSaveable { mutableStateOf(false) }
    if (folded) {
        Folding(open, { open = !open }, Modifier.testTag("peril-$peril")) { Words(peril, open) }
    } else {
        Panel { Words(peril, open = true) }
    }
}

@Composable
private fun Words(peril: Peril, open: Boolean) {
    Marked(R.drawable.ic_danger, tint = roles.blocked.mark) {
        Text(
            stringResource(peril.title),
            Modifier.semantics { heading() },
            style = MaterialTheme.typography.titleLarge,
        )
    }
    if (open) Lines(stringArrayResource(peril.lines).toList())
}

/** Shows the number in the phone's own dialler. Only whoever presses call there calls; it needs no permission. */
@Composable
private fun Dial() {
    val context = LocalContext.current
    var none by rememberSaveable { mutableStateOf(false) }
    MainButton(
        stringResource(if (none) R.string.life_dial_none else R.string.life_dial),
        {
            none = try {
                context.startActivity(Intent(Intent.ACTION_DIAL, Uri.parse(NUMBER)).addFlags(Intent.FLAG_ACTIVITY_NEW_TASK))
                false
            } catch (_: ActivityNotFoundException) {
                true
            }
        },
        Modifier.testTag("dial").semantics { liveRegion = LiveRegionMode.Assertive },
        R.drawable.ic_dial,
        tone = roles.emergency,
    )
}

private const val NUMBER = "tel:112"
