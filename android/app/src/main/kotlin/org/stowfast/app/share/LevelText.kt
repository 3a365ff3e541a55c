package org.stowfast.app.share

import org.stowfast.app.R
import org.stowfast.app.level.LevelState

fun Told.level(state: LevelState) {
    val page = state.page ?: return
    say(page.verdictText)
    if (page.mark == null && page.lean.isNotEmpty()) say(R.string.level_last)
    if (!page.isSet) say(page.setText)
    if (state.held) say(R.string.level_held)
    if (page.lean.isNotEmpty()) head(R.string.level_plan)
    for (wheel in page.wheels) {
        say(wheel.title)
        say(wheel.text)
        say(wheel.detail)
    }
    part()
    page.lean.forEach(::reckoned)
    page.missing.forEach(::say)
    page.cautions.forEach(::mind)
    head(R.string.level_spot)
    say(page.setText)
    head(R.string.level_how)
    list(page.how)
}
