package org.stowfast.app.share

import androidx.annotation.StringRes
import org.stowfast.app.R
import org.stowfast.app.fridge.FridgeState
import org.stowfast.app.life.Peril
import org.stowfast.app.now.Blocker
import org.stowfast.app.now.NowState
import org.stowfast.app.now.line
import org.stowfast.app.now.nearby
import org.stowfast.app.now.oldestLook
import org.stowfast.app.now.others
import org.stowfast.app.now.since
import org.stowfast.app.reading.ReadingState
import org.stowfast.app.reading.inOrder
import org.stowfast.app.ui.countdown
import org.stowfast.app.ui.dayAndTime
import org.stowfast.app.ui.look
import org.stowfast.app.ui.timeOfDay
import org.stowfast.app.vehicle.VehicleState
import org.stowfast.engine.DriveCardPage
import org.stowfast.engine.ItemRow
import org.stowfast.engine.NowPage
import org.stowfast.engine.StandsRow
import org.stowfast.engine.StuckRow

fun Told.now(state: NowState) {
    val page = state.page ?: return
    for (row in page.emergency) {
        mind(row.text)
        say(row.title)
        part()
    }
    page.stands?.let { row ->
        say(row.headline)
        say(row.since(context))
        part()
    }
    when {
        page.emergency.isNotEmpty() -> lesserVerdict(page)
        page.stands?.finished != true -> verdict(page)
    }
    for (row in page.reminders) {
        part()
        say(row.line(context))
        say(row.aboutText)
    }
    val stands = page.stands?.takeIf { !page.moving }
    stands?.let(::left)
    val heading = if (page.moving) R.string.now_wrong else R.string.now_blocks
    items(page, if (stands == null) context.getString(heading) else context.getString(R.string.stands_road, page.items.size))
    page.fridge?.let { fridge ->
        part()
        say(fridge.title)
        say(fridge.headline)
        val left = fridge.nextChangeUtcMs?.let { context.countdown(it, state.nowUtcMs) }
        say(if (left == null) fridge.nextText else "${fridge.nextText} ($left)")
    }
    head(R.string.place_heading)
    if (page.placeTitle.isEmpty()) say(R.string.place_none) else say(page.nearby())
}

private fun Told.left(row: StandsRow) {
    if (row.items.isNotEmpty()) head(R.string.stands_left)
    row.items.forEach {
        part()
        item(it)
    }
    if (row.notSeen.isEmpty()) return
    head(R.string.stands_not_seen)
    list(row.notSeen)
}

fun Told.drive(page: NowPage, card: DriveCardPage?) {
    verdict(page)
    mind(context.getString(R.string.drive_phone))
    say(R.string.drive_about)
    items(page, context.getString(R.string.now_blocks))
    if (card == null) return
    head(R.string.drive_card_heading)
    driveCard(card)
}

private fun Told.verdict(page: NowPage) {
    say(page.headline)
    say(page.detail)
    page.oldestLook()?.let { say(R.string.now_oldest_look, it) }
    if (page.clockChanged) say(R.string.now_clock_changed)
}

private fun Told.lesserVerdict(page: NowPage) {
    say(page.headline)
    if (page.clockChanged) say(R.string.now_clock_changed)
}

private fun Told.items(page: NowPage, heading: String) {
    if (page.items.isEmpty()) return
    part()
    say(heading)
    page.items.forEach {
        part()
        item(it)
    }
}

private fun Told.item(row: ItemRow) {
    say(row.title)
    val known = context.getString(if (row.knownBad) R.string.now_known_bad else R.string.now_not_known)
    say(listOf(context.getString(row.severity.look().word), known, row.zoneTitle).joinToString(" · "))
    named(R.string.now_wanted, row.wanted)
    named(R.string.now_seen, row.seen)
}

internal fun Told.named(@StringRes name: Int, value: String) = named(context.getString(name), value)

internal fun Told.named(name: String, value: String) = say("$name: $value")

fun Told.blocker(blocker: Blocker) {
    val item = blocker.item
    item(item)
    item.stuck?.let { stuck(it) }
    (listOfNotNull(item.caution) + blocker.step?.cautions.orEmpty()).distinct().forEach(::mind)
    toDo(blocker)
    head(R.string.now_why)
    say(item.reason)
    say(R.string.now_source, item.source)
}

private fun Told.stuck(row: StuckRow) {
    say(R.string.stuck_title, row.title)
    say(row.text)
}

private fun Told.toDo(blocker: Blocker) {
    val (_, _, way, step, against) = blocker
    if (step == null) {
        if (way != null) say(R.string.now_no_step)
        return
    }
    head(R.string.now_step)
    say(step.zoneTitle)
    say(step.text)
    way?.steps.orEmpty().takeWhile { it.id != step.id }.lastOrNull()?.let { say(R.string.now_step_after, it.text) }
    list(blocker.others())
    if (against.isEmpty()) return
    head(R.string.now_step_not_yet)
    list(against)
}

fun Told.fridge(state: FridgeState) {
    val page = state.page ?: return say(R.string.fridge_none)
    say(page.source.look().word)
    if (page.manual) say(R.string.fridge_manual)
    say(page.headline)
    page.byHand?.let {
        part()
        say(R.string.fridge_hand)
        say(it)
    }
    page.nextText?.let { text ->
        part()
        say(text)
        page.nextChangeUtcMs?.let { at -> say(listOfNotNull(context.timeOfDay(at), context.countdown(at, state.nowUtcMs)).joinToString(" · ")) }
    }
    page.cautions.forEach(::mind)
    if (page.why.isNotEmpty()) {
        head(R.string.fridge_why)
        list(page.why)
    }
    for (row in page.ahead) {
        part()
        say(row.title)
        list(row.lines)
        val leave = row.leave?.takeIf { it.chosenUtcMs != null }
        if (leave == null) row.readyUtcMs?.let { say(R.string.fridge_ready, context.dayAndTime(it)) }
        leave?.chosenUtcMs?.let { say(R.string.fridge_leave_at, context.dayAndTime(it)) }
        leave?.startUtcMs?.let { say(R.string.fridge_begin_by, context.dayAndTime(it)) }
        say(leave?.startText)
    }
}

fun Told.reading(state: ReadingState) {
    if (state.gauges?.isEmpty() == true) say(R.string.reading_none)
    for (gauge in state.inOrder()) {
        part()
        say(gauge.title)
        say(gauge.currentText)
        say(gauge.ageText)
        if (!gauge.counts) say(R.string.reading_not_counted)
        say(gauge.about)
        say(gauge.note)
        for (question in gauge.questions) {
            say(question.title)
            list(question.choices.filter { it.id == question.chosen }.map { it.text })
        }
    }
}

fun Told.vehicle(state: VehicleState) {
    if (state.vehicles.isNullOrEmpty()) {
        say(R.string.vehicle_welcome)
        list(listOf(R.string.vehicle_first_1, R.string.vehicle_first_2, R.string.vehicle_first_3).map(context::getString))
    } else {
        say(R.string.vehicle_yours)
    }
    for (row in state.vehicles.orEmpty()) {
        part()
        say(row.title)
        if (row.current) say(R.string.vehicle_current)
        if (row.invented) say(R.string.vehicle_invented)
        row.problem?.let(::mind)
    }
    if (state.demos.isNotEmpty()) head(R.string.vehicle_demo)
    for (demo in state.demos) {
        part()
        say(demo.title)
        say(demo.about)
    }
}

fun Told.life() {
    say(R.string.life_intro)
    say(R.string.life_dial_about)
    for (peril in Peril.entries) {
        part()
        mind(context.getString(peril.title))
        list(context.resources.getStringArray(peril.lines).toList())
    }
    part()
    say(R.string.life_foot)
}
