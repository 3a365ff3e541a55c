package org.stowfast.app.now

import androidx.annotation.StringRes
import androidx.compose.foundation.lazy.LazyListScope
import androidx.compose.foundation.lazy.items
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.heading
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.unit.dp
import org.stowfast.app.R
import org.stowfast.app.frame.Place
import org.stowfast.app.place.PLACE_SEPARATOR
import org.stowfast.app.ui.Door
import org.stowfast.app.ui.Lines
import org.stowfast.app.ui.Marked
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.Folding
import org.stowfast.app.ui.SectionHeading
import org.stowfast.app.ui.Tile
import org.stowfast.app.ui.Tiles
import org.stowfast.app.ui.look
import org.stowfast.engine.ItemRow
import org.stowfast.engine.NowPage
import org.stowfast.engine.StandsRow
import org.stowfast.engine.VerdictKind

/** How many of the things in the way stand on the first page before the others are asked for. */
private const val FIRST = 3

/** How much of what is known of the place stands on the first page; the rest is a tap away. */
private const val PLACE_WORDS = 3

fun NowPage.nearby(): String = placeTitle.split(PLACE_SEPARATOR).take(PLACE_WORDS).joinToString(PLACE_SEPARATOR)

/** On the road, and before it, what the driver must know. */
fun LazyListScope.driveCard(page: NowPage, go: (Place) -> Unit) {
    if (page.moving || page.verdict == VerdictKind.CLEAR) {
        item { Door(R.drawable.ic_height, R.string.drive_card_heading, null, "drive-card") { go(Place.DRIVE_CARD) } }
    }
}

/** What a tired owner looks for in the rain comes first. */
fun LazyListScope.doors(page: NowPage, go: (Place) -> Unit) {
    item { Door(R.drawable.ic_red, R.string.red_heading, null, "red") { go(Place.RED) } }
    item {
        Tiles(
            listOfNotNull(
                page.fridge?.let { Tile(R.drawable.ic_fridge, R.string.now_door_fridge, "fridge") { go(Place.FRIDGE) } },
                Tile(R.drawable.ic_gauge, R.string.reserve_heading, "reserves") { go(Place.RESERVES) },
                Tile(R.drawable.ic_question, R.string.now_door_questions, "questions") { go(Place.QUESTIONS) },
                Tile(R.drawable.ic_card, R.string.cards_heading, "cards") { go(Place.CARDS) },
                Tile(R.drawable.ic_place, R.string.place_heading, "where") { go(Place.WHERE) },
                Tile(R.drawable.ic_list, R.string.things_heading, "things") { go(Place.THINGS) },
                Tile(R.drawable.ic_clock, R.string.now_door_record, "record") { go(Place.RECORD) },
                Tile(R.drawable.ic_van, R.string.now_door_vehicle, "vehicles") { go(Place.VEHICLE) },
            ),
        )
    }
}

/** The worst, in the engine's order, and the others where [all] are asked for; without [onTurn] nothing is folded away. */
fun LazyListScope.inTheWay(page: NowPage, all: Boolean, onTurn: (() -> Unit)?, onEvent: (NowEvent) -> Unit) {
    if (page.items.isEmpty()) return
    item { SectionHeading(stringResource(if (page.moving) R.string.now_wrong else R.string.now_blocks)) }
    worst(page.items, all, onTurn, if (page.moving) R.string.now_more_wrong else R.string.now_more) { onEvent(NowEvent.Inspect(it, null)) }
}

private fun LazyListScope.worst(rows: List<ItemRow>, all: Boolean, onTurn: (() -> Unit)?, @StringRes more: Int, onOpen: (ItemRow) -> Unit) {
    items(if (all) rows else rows.take(FIRST)) { Item(it) { onOpen(it) } }
    val others = rows.drop(FIRST)
    if (onTurn == null || others.isEmpty()) return
    item {
        Folding(all, onTurn, Modifier.testTag("more-items")) {
            Text(
                if (all) stringResource(R.string.now_fewer) else stringResource(more, others.size),
                style = MaterialTheme.typography.titleMedium,
            )
        }
    }
}

/** What of that in which it stands is not so or not known, the way that sees to it, and what nobody saw. */
fun LazyListScope.left(row: StandsRow, all: Boolean, onTurn: (() -> Unit)?, preview: (String) -> Unit, onEvent: (NowEvent) -> Unit) {
    if (row.items.isNotEmpty()) {
        item { SectionHeading(stringResource(R.string.stands_left)) }
        worst(row.items, all, onTurn, R.string.stands_more) { onEvent(NowEvent.Inspect(it, row.ledId)) }
        item {
            Panel(Modifier.testTag("led"), onClick = { preview(row.ledId) }, end = R.drawable.ic_forward) {
                Marked(R.drawable.ic_route, size = 28.dp) {
                    Text(stringResource(R.string.stands_way, row.ledTitle), style = MaterialTheme.typography.titleMedium)
                }
            }
        }
    }
    if (row.notSeen.isEmpty()) return
    item {
        Panel(Modifier.testTag("not-seen")) {
            Text(stringResource(R.string.stands_not_seen), Modifier.semantics { heading() }, style = MaterialTheme.typography.titleMedium)
            Lines(row.notSeen)
        }
    }
}

/** What is in the way to the road, where nobody is about to drive: behind one tap. */
fun LazyListScope.folded(page: NowPage, open: Boolean, onTurn: () -> Unit, onEvent: (NowEvent) -> Unit) {
    if (page.items.isEmpty()) return
    item {
        Folding(open, onTurn, Modifier.testTag("road-items")) {
            Text(stringResource(R.string.stands_road, page.items.size), style = MaterialTheme.typography.titleMedium)
        }
    }
    if (open) items(page.items) { Item(it) { onEvent(NowEvent.Inspect(it, null)) } }
}

/** How the fridge and the place stand, and the word that one drives off whatever is in the way. */
fun LazyListScope.known(page: NowPage, nowUtcMs: Long, go: (Place) -> Unit, onEvent: (NowEvent) -> Unit) {
    page.fridge?.let { fridge ->
        item { FridgeCard(fridge, nowUtcMs) { go(Place.FRIDGE) } }
    }
    item {
        Door(R.drawable.ic_place, R.string.place_heading, page.nearby().ifEmpty { stringResource(R.string.place_none) }, "place-now") { go(Place.WHERE) }
    }
    if (!page.moving && page.verdict != VerdictKind.CLEAR) {
        item {
            val look = page.look()
            Door(look.mark, R.string.drive_anyway, stringResource(R.string.drive_anyway_about), "drive-anyway", look.tone) { onEvent(NowEvent.Leave) }
        }
    }
}
