package org.stowfast.app.share

import org.stowfast.app.R
import org.stowfast.app.reserve.ReserveState
import org.stowfast.app.ui.dayOf
import org.stowfast.app.ui.timeOfDay
import org.stowfast.engine.DriveCardPage
import org.stowfast.engine.ReserveRow

fun Told.driveCard(page: DriveCardPage) {
    for (row in listOf(page.height) + page.rows) {
        part()
        say(row.title)
        say(row.text)
        say(row.note)
    }
    part()
    page.cautions.forEach(::mind)
}

fun Told.reserves(state: ReserveState) {
    val page = state.page ?: return
    if (page.rows.isEmpty()) return say(R.string.reading_none)
    say(page.firstText)
    list(page.firsts)
    say(page.unknownText)
    list(page.unknown)
    say(page.gasText)
    for (row in page.rows) {
        part()
        reserve(row)
    }
    part()
    say(page.about)
}

private fun Told.reserve(row: ReserveRow) {
    say(row.title)
    say(row.levelText)
    say(row.levelAgeText)
    if (row.first) say(R.string.reserve_first)
    row.leftText?.let { named(context.getString(R.string.reserve_left, row.endText), it) }
    row.usedText?.let { named(R.string.reserve_used, it) }
    say(row.restsText)
    say(row.roomText)
    row.betweenText?.let { named(R.string.reserve_between, it) }
    row.seenText?.let { seen -> named(R.string.reserve_seen, listOfNotNull(seen, row.seenAgeText).joinToString()) }
    if (!row.seenCounts) say(row.seenNote ?: context.getString(R.string.reserve_not_counted))
    row.missing.forEach(::say)
}

/** When they leave, as it is being chosen. */
fun Told.departure(utcMs: Long) {
    say(R.string.departure_day)
    say(context.dayOf(utcMs))
    say(R.string.departure_time)
    say(context.timeOfDay(utcMs))
}
