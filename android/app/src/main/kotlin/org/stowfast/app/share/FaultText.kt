package org.stowfast.app.share

import androidx.annotation.StringRes
import org.stowfast.app.R
import org.stowfast.app.fault.FaultState
import org.stowfast.app.fault.first
import org.stowfast.app.fault.lasts
import org.stowfast.app.fault.later
import org.stowfast.app.fault.otherCards
import org.stowfast.app.faults.FaultsState
import org.stowfast.app.faults.word
import org.stowfast.engine.CauseRow
import org.stowfast.engine.CheckRow
import org.stowfast.engine.FaultPage
import org.stowfast.engine.FaultStage

fun Told.faults(state: FaultsState) {
    val rows = state.rows ?: return
    if (rows.isEmpty()) say(R.string.faults_none)
    for (row in rows) {
        part()
        say(row.title)
        say(row.zoneTitle)
        row.word()?.let { say(it) }
    }
}

fun Told.fault(state: FaultState) {
    val page = state.page ?: return
    if (page.emergency.isNotEmpty()) {
        for (row in page.emergency) {
            mind(row.title)
            say(row.text)
        }
        return say(page.headline)
    }
    if (page.cautions.isNotEmpty()) mind(context.getString(R.string.fault_life))
    list(page.first())
    for (row in page.contrary) {
        part()
        say(row.text)
        list(row.lookAgain)
    }
    part()
    say(page.headline)
    page.question?.let { check(it) }
    page.found?.let { cause(page, it) }
    page.later().forEach(::mind)
    around(page)
}

private fun Told.check(row: CheckRow) {
    say(row.zoneTitle.ifEmpty { context.getString(R.string.fault_anywhere) })
    say(row.text)
    list(row.how)
    row.toolText?.let { say(R.string.fault_tool, it) }
    say(context.lasts(row))
    row.cautions.forEach(::mind)
}

private fun Told.cause(page: FaultPage, row: CauseRow) {
    say(row.text)
    say(row.helperText)
    list(row.remedy)
    say(row.routine?.title)
    for (step in row.steps) {
        say(step.text)
        say(step.zoneTitle)
    }
    row.cards.forEach { say(it.title) }
    if (page.fault.stage == FaultStage.HELPER) {
        head(R.string.fault_account)
        page.account.lines().forEach(::say)
    }
}

private fun Told.around(page: FaultPage) {
    if (page.showsRed.isNotEmpty()) head(R.string.fault_may_show)
    for (row in page.showsRed) {
        say(row.title)
        if (row.shows) list(listOf(context.getString(R.string.fault_red)))
    }
    section(R.string.fault_tried, page.tried.map { it.text })
    if (page.fault.stage != FaultStage.MENDED && page.likely.size > 1) {
        head(R.string.fault_likely)
        for (row in page.likely) {
            say(row.text)
            say(R.string.fault_chance, row.chanceText, row.chancePct)
        }
    }
    part()
    say(page.expectedText)
    section(R.string.fault_settled, page.settled)
    section(R.string.hit_card, page.otherCards().map { it.title })
    part()
    say(R.string.fault_source, page.source, page.likelihood)
}

private fun Told.section(@StringRes title: Int, lines: List<String>) {
    if (lines.isEmpty()) return
    head(title)
    list(lines)
}
