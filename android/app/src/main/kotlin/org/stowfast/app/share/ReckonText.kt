package org.stowfast.app.share

import org.stowfast.app.R
import org.stowfast.app.questions.QuestionsState
import org.stowfast.app.reckon.ReckonState
import org.stowfast.engine.Choice

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
    page.cautions.forEach(::mind)
    page.missing.forEach(::say)
    part()
    page.choices.forEach(::choice)
    for (row in page.asks) {
        named(row.title, row.valueText ?: context.getString(R.string.now_not_known))
        say(row.about)
    }
    for (it in page.parts) {
        part()
        say(it.title)
        it.chart?.let { chart ->
            say(chart.title)
            say(chart.topText)
            say(chart.bottomText)
            say(chart.limitText)
            say(chart.told)
        }
        for (line in it.lines) {
            named(line.title, line.text)
            say(line.detail)
        }
    }
    part()
    page.about.forEach(::say)
}

private fun Told.choice(choice: Choice) {
    val number = choice.number
    val chosen = if (number == null) choice.options.filter { it.chosen }.joinToString(", ") { it.title } else number.valueText.orEmpty()
    named(choice.title, chosen.ifEmpty { context.getString(R.string.reckon_not_picked) })
}
