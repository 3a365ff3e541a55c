package org.stowfast.app.share

import org.stowfast.app.R
import org.stowfast.app.figures.FiguresState
import org.stowfast.app.stay.StayState
import org.stowfast.engine.FigureRow
import org.stowfast.engine.StayRow

fun Told.figures(state: FiguresState) {
    val rows = state.rows ?: return
    if (rows.isEmpty()) say(R.string.figures_none)
    for ((of, group) in rows.groupBy { it.ofText }) {
        part()
        say(of)
        group.forEach { figure(it, state.open) }
    }
}

/** What a number is stands on the page while it is not known, or open. */
internal fun Told.figure(row: FigureRow, open: String?) {
    say(row.title)
    say(row.valueText ?: context.getString(R.string.now_not_known))
    say(row.ageText)
    if (row.valueText == null || row.id == open) say(row.about)
}

fun Told.stay(state: StayState) {
    val page = state.page ?: return
    if (page.rows.isEmpty()) return say(R.string.reading_none)
    say(page.title)
    say(page.holdsText)
    for (row in page.rows) {
        part()
        stay(row)
    }
    part()
    say(page.about)
}

private fun Told.stay(row: StayRow) {
    say(row.title)
    say(row.holdsText)
    row.leftText?.let { named(R.string.stay_left, it) }
    row.usedText?.let { named(R.string.stay_used, it) }
    say(row.doText)
    say(row.restsText)
    row.missing.forEach(::say)
}
