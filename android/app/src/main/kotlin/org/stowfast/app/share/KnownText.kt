package org.stowfast.app.share

import androidx.annotation.StringRes
import org.stowfast.app.R
import org.stowfast.app.alert.AlertState
import org.stowfast.app.alert.mend
import org.stowfast.app.alert.surely
import org.stowfast.app.card.CAUTION
import org.stowfast.app.card.CardState
import org.stowfast.app.card.inOrder
import org.stowfast.app.cards.CardsState
import org.stowfast.app.cards.word
import org.stowfast.app.place.PLACE_SEPARATOR
import org.stowfast.app.place.PlaceState
import org.stowfast.app.record.RecordState
import org.stowfast.app.record.time
import org.stowfast.app.red.RedState
import org.stowfast.app.red.heading
import org.stowfast.app.things.ThingsState
import org.stowfast.app.ui.showsNow
import org.stowfast.app.ui.word
import org.stowfast.engine.AlertRow
import org.stowfast.engine.MeaningRow
import org.stowfast.engine.Shown

fun Told.red(state: RedState) {
    val rows = state.rows ?: return
    if (rows.isEmpty()) say(R.string.red_none)
    val (now, others) = rows.partition { it.showsNow() }
    now.forEach(::indication)
    for ((seen, there) in others.groupBy { it.seen }) {
        head(seen.heading())
        there.forEach(::indication)
    }
}

private fun Told.indication(row: AlertRow) {
    part()
    say(row.title)
    say(row.sign)
    say(R.string.red_where, context.getString(row.word()), row.zoneTitle)
}

fun Told.alert(state: AlertState) {
    val page = state.page ?: return
    val first = page.meanings.first()
    say(page.alert.word())
    if (page.alert.shown != Shown.YES) say(R.string.alert_if)
    say(first.text)
    first.surely(page.alert)?.let { say(it) }
    say(page.alert.sign)
    say(page.alert.zoneTitle)
    advice(first)
    section(R.string.alert_help, page.help)
    part()
    page.cautions.forEach(::mind)
    if (page.meanings.size > 1) head(R.string.alert_or)
    for (other in page.meanings.drop(1)) {
        part()
        say(other.text)
        advice(other)
    }
    section(R.string.alert_faults, page.faults.map { it.title })
    section(R.string.cards_heading, page.cards.map { it.title })
    part()
    say(R.string.now_source, page.source)
}

private fun Told.advice(meaning: MeaningRow) {
    section(R.string.alert_do, meaning.doNow)
    section(R.string.alert_stop, meaning.stopNow)
    section(R.string.alert_trip, listOf(meaning.trip).filter { it.isNotEmpty() })
    if (meaning.routine == null && meaning.steps.isEmpty()) return
    head(meaning.mend())
    say(meaning.routine?.title)
    for (step in meaning.steps) {
        say(step.text)
        say(step.zoneTitle)
    }
}

private fun Told.section(@StringRes title: Int, lines: List<String>) {
    if (lines.isEmpty()) return
    head(title)
    list(lines)
}

fun Told.cards(state: CardsState) {
    val rows = state.rows ?: return
    if (state.asked.isNotBlank()) return found(state)
    if (rows.isEmpty()) say(R.string.cards_none)
    for (row in rows) {
        part()
        say(row.title)
        say(row.zoneTitle)
    }
}

private fun Told.found(state: CardsState) {
    val found = state.found ?: return
    if (found.isEmpty()) {
        say(R.string.cards_nothing)
        say(R.string.cards_try)
    }
    for (row in found) {
        part()
        say(row.title)
        val sort = context.getString(row.kind.word())
        if (row.about.isEmpty()) say(sort) else say(R.string.red_where, sort, row.about)
        if (row.emergency) say(R.string.hit_emergency)
        say(row.line)
    }
}

fun Told.card(state: CardState) {
    val page = state.page ?: return
    say(R.string.card_where)
    say(page.card.zoneTitle)
    if (page.note.isNotEmpty()) {
        head(R.string.card_note)
        say(page.note)
    }
    page.photo?.let {
        head(R.string.card_photo)
        say(it.byText)
    }
    for (section in page.inOrder()) {
        part()
        if (section.id == CAUTION) mind(section.title) else say(section.title)
        list(section.lines)
    }
    moves(page.steps)
    section(R.string.card_alerts, page.alerts.map { it.title })
    section(R.string.card_faults, page.faults.map { it.title })
    section(R.string.card_routines, page.routines.map { it.title })
}

fun Told.things(state: ThingsState) {
    val rows = state.rows.orEmpty()
    rows.forEachIndexed { index, row ->
        part()
        if (index == 0 || rows[index - 1].zoneId != row.zoneId) say(row.zoneTitle)
        say(row.title)
        say(row.currentText)
        say(row.ageText)
    }
}

fun Told.record(state: RecordState) {
    val rows = state.rows ?: return
    if (rows.isEmpty()) say(R.string.record_none)
    for (row in rows) {
        part()
        val time = context.time(row)
        if (row.voided) say(R.string.record_voided, time) else say(time)
        say(row.text)
    }
}

fun Told.place(state: PlaceState) {
    val now = state.now ?: return
    if (now.placeTitle.isEmpty()) say(R.string.place_none) else list(now.placeTitle.split(PLACE_SEPARATOR))
    val told = state.rules.filter { it.told }
    if (told.isEmpty()) return
    head(R.string.place_rules)
    for (row in told) {
        part()
        say(row.placeTitle)
        say("${row.title}: ${row.saysText}")
        say(row.note)
        say(R.string.place_source, row.source, row.date)
    }
    part()
    say(R.string.place_rules_about)
}

fun Told.arrive(state: PlaceState) {
    val (invented, known) = state.places.partition { it.invented }
    for (place in known) {
        say(place.title)
        say(place.about)
        part()
    }
    if (invented.isNotEmpty()) head(R.string.arrive_invented)
    for (place in invented) {
        part()
        say(place.title)
        say(place.about)
    }
}
