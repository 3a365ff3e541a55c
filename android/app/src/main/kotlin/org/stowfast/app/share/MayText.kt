package org.stowfast.app.share

import org.stowfast.app.R
import org.stowfast.app.may.MayState
import org.stowfast.app.steps.StepsState
import org.stowfast.app.steps.found
import org.stowfast.engine.MoveRow

fun Told.may(state: MayState) {
    val page = state.page ?: return
    say(page.step.text)
    say(page.step.zoneTitle)
    part()
    say(page.answer)
    if (page.against.isNotEmpty()) {
        head(R.string.may_against)
        for (row in page.against) {
            say(row.text)
            row.removedText?.let { list(listOf(it)) }
        }
    }
    if (page.first.isNotEmpty()) head(R.string.may_first)
    for (row in page.first) {
        say(row.text)
        list(listOf(row.zoneTitle))
    }
    page.routine?.let {
        head(R.string.may_routine)
        say(it.title)
    }
    part()
    page.step.cautions.forEach(::mind)
    say(R.string.about_advises)
}

fun Told.moves(rows: List<MoveRow>) {
    if (rows.isEmpty()) return
    head(R.string.card_moves)
    for (row in rows) {
        say(row.text)
        if (row.standsText.isNotEmpty()) list(listOf(row.standsText))
    }
}

fun Told.steps(state: StepsState) {
    val rows = state.found()
    say(R.string.steps_about)
    if (rows.isEmpty()) say(R.string.steps_none)
    rows.forEachIndexed { index, row ->
        if (index == 0 || rows[index - 1].zoneId != row.zoneId) {
            part()
            say(row.zoneTitle)
        }
        say(row.text)
    }
}
