package org.stowfast.app.share

import org.stowfast.app.R
import org.stowfast.engine.StepRow

/** What is asked about a step, for somebody else to go and see: what it is about, and what the answer may be. */
fun Told.seen(step: StepRow, listed: Boolean) {
    say(if (listed) step.wanted else step.text)
    list(step.choices.map { it.text })
}

fun Told.cannot(step: StepRow) = say(step.text)

fun Told.leave(step: StepRow) {
    say(step.text)
    say(R.string.routine_leave_about)
    if (step.why.isEmpty()) return
    head(R.string.now_why)
    list(step.why)
}
