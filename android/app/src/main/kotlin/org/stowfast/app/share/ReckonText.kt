package org.stowfast.app.share

import org.stowfast.app.R
import org.stowfast.app.questions.QuestionsState
import org.stowfast.app.reckon.answered
import org.stowfast.app.reckon.by
import org.stowfast.app.reckon.picked
import org.stowfast.app.reckon.ReckonState
import org.stowfast.engine.Chart
import org.stowfast.engine.Choice
import org.stowfast.engine.Reckoning
import org.stowfast.engine.ReckoningLine

fun Told.questions(state: QuestionsState) {
    for (row in state.rows.orEmpty()) {
        part()
        say(row.title)
        say(row.about)
    }
}

fun Told.reckoning(state: ReckonState) {
    val page = state.page ?: return
    say(page.verdictText)
    say(page.by(context))
    page.cautions.forEach(::mind)
    // In the order of the page, which has the numbers first once there is an answer.
    if (page.answered()) {
        numbers(page)
        askedWith(state, page)
    } else {
        askedWith(state, page)
        numbers(page)
    }
    part()
    page.about.forEach(::say)
}

private fun Told.askedWith(state: ReckonState, page: Reckoning) {
    page.missing.forEach(::say)
    part()
    page.choices.forEach(::choice)
    page.asks.forEach { figure(it, state.open) }
}

private fun Told.numbers(page: Reckoning) {
    for (it in page.parts) {
        part()
        say(it.title)
        it.chart?.let(::chart)
        it.lines.forEach(::reckoned)
    }
}

private fun Told.chart(chart: Chart) {
    say(chart.title)
    say(chart.topText)
    say(chart.bottomText)
    chart.limitText?.let { limit -> say("- - - $limit") }
    say(chart.told)
}

/** One thing that was reckoned, as its panel has it. */
fun Told.reckoned(line: ReckoningLine) {
    if (line.mark == null) {
        named(line.title, line.text)
    } else {
        say(line.title)
        say(line.text)
    }
    say(line.detail)
}

/** What it is asked with; what was not chosen stands on the page to be tapped alone. */
private fun Told.choice(choice: Choice) {
    say(choice.title)
    say(choice.picked() ?: context.getString(R.string.reckon_not_picked))
}
