package org.stowfast.app.now

import androidx.compose.foundation.lazy.items
import androidx.compose.foundation.lazy.rememberLazyListState
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.ui.res.stringResource
import org.stowfast.app.R
import org.stowfast.app.drivecard.driveCard
import org.stowfast.app.share.drive
import org.stowfast.app.ui.Beside
import org.stowfast.app.ui.Caution
import org.stowfast.app.ui.ConfirmButton
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.SectionHeading
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.look
import org.stowfast.engine.DriveCardPage
import org.stowfast.engine.NowPage
import org.stowfast.engine.VerdictKind

/** The last page before the road: what the list says, and the word that the vehicle drives. A fact is never refused. */
@Composable
fun DrivePage(page: NowPage, card: DriveCardPage?, ways: Ways, onEvent: (NowEvent) -> Unit) {
    val home = { onEvent(NowEvent.Home) }
    val besides = rememberLazyListState()
    val clear = page.verdict == VerdictKind.CLEAR
    val look = page.look()
    Page(
        stringResource(R.string.drive_off),
        ways.copy(back = home),
        bottom = {
            ConfirmButton(
                "drive",
                stringResource(if (clear) R.string.drive_go else R.string.drive_anyway),
                stringResource(R.string.drive_hold),
                deliberate = true,
                icon = if (clear) R.drawable.ic_van else look.mark,
                onConfirm = { onEvent(NowEvent.DriveOff) },
                exception = look.tone.takeIf { !clear },
            )
        },
        told = { drive(page, card) },
        beside = Beside(besides) {
            if (page.items.isNotEmpty()) {
                item { SectionHeading(stringResource(R.string.now_blocks)) }
                items(page.items) { Item(it) { onEvent(NowEvent.Inspect(it, null)) } }
            }
            card?.let {
                item { SectionHeading(stringResource(R.string.drive_card_heading)) }
                driveCard(it)
            }
        },
    ) {
        item { Verdict(page) }
        item { Caution(stringResource(R.string.drive_phone)) }
        item { Text(stringResource(R.string.drive_about), style = MaterialTheme.typography.bodyLarge) }
    }
}
