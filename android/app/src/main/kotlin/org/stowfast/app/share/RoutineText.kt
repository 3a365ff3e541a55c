package org.stowfast.app.share

import androidx.annotation.StringRes
import org.stowfast.app.R
import org.stowfast.app.preview.PreviewState
import org.stowfast.app.preview.shown
import org.stowfast.app.routine.Gesture
import org.stowfast.app.routine.Later
import org.stowfast.app.routine.RoutineState
import org.stowfast.app.routine.current
import org.stowfast.app.routine.duration
import org.stowfast.app.routine.found
import org.stowfast.app.routine.lasts
import org.stowfast.app.routine.later
import org.stowfast.app.routine.whole
import org.stowfast.app.shared.SharedState
import org.stowfast.app.target.TargetState
import org.stowfast.app.ui.dayAndTime
import org.stowfast.engine.Odd
import org.stowfast.engine.OrderExact
import org.stowfast.engine.OrderGap
import org.stowfast.engine.OrderNone
import org.stowfast.engine.RoutinePage
import org.stowfast.engine.StepKind
import org.stowfast.engine.StepRow

fun Told.routine(state: RoutineState) {
    val page = state.page
    when {
        page == null -> say(R.string.routine_none)
        page.finished -> {
            say(R.string.routine_finished)
            say(page.run.targetTitle)
            say(page.headline)
            say(page.endText)
        }
        page.run.paused -> {
            say(R.string.routine_paused)
            say(R.string.routine_paused_about)
            if (page.cannotMove.isNotEmpty()) impossible(page.impossible)
        }
        else -> underWay(page, state.odd)
    }
}

private fun Told.underWay(page: RoutinePage, odd: Map<String, Odd>) {
    when {
        page.untilUtcMs != null -> Unit
        page.gestureCount == 0 -> say(page.headline)
        else -> say(R.string.routine_progress, page.gestureCount, context.duration(page.elapsedS))
    }
    say(page.partEnd)
    if (page.resumedFromPause) page.done.firstOrNull()?.let { say(R.string.routine_reread, it.text) }
    impossible(page.impossible)
    page.warnings.forEach(::mind)
    page.current()?.let { gesture ->
        part()
        val step = gesture.alone
        if (step == null) lines(gesture, odd) else step(step, page.untilUtcMs)
    }
    rest(page.later(), R.string.routine_then)
    if (page.stuck.isNotEmpty()) {
        head(R.string.routine_stuck)
        list(page.stuck.map { it.text })
    }
    part()
    when (val proof = page.proof) {
        is OrderExact -> say(R.string.routine_exact)
        is OrderGap -> say(R.string.routine_gap, context.duration(proof.gapS))
        is OrderNone -> Unit
    }
}

private fun Told.impossible(reasons: List<String>) {
    if (reasons.isEmpty()) return
    head(R.string.routine_impossible)
    list(reasons)
    part()
}

/** The step to do now. What is to be seen then stands on the page's button. */
private fun Told.step(step: StepRow, untilUtcMs: Long?) {
    say(step.zoneTitle)
    say(step.text)
    if (step.kind != StepKind.WAIT) say(context.lasts(step))
    untilUtcMs?.let { say(R.string.routine_until, context.dayAndTime(it)) }
    step.cautions.forEach(::mind)
    list(step.why)
    if (step.kind != StepKind.WAIT) say(step.wanted)
}

/** The list to see to now. */
private fun Told.lines(gesture: Gesture, odd: Map<String, Odd>) {
    say(R.string.routine_list)
    gesture.steps.zip(gesture.row.lines).forEachIndexed { index, (step, line) ->
        if (index == 0 || gesture.steps[index - 1].zoneId != step.zoneId) {
            part()
            say(step.zoneTitle)
        }
        say(line)
        if (step.kind == StepKind.MOVE) say(step.text)
        odd[step.id]?.let { say(context.found(step, it)) }
        step.cautions.forEach(::mind)
        list(step.why)
    }
}

private fun Told.rest(later: List<Later>, @StringRes heading: Int) {
    if (later.isEmpty()) return
    head(heading)
    var zone = ""
    for (row in later) {
        part()
        when (row) {
            is Later.Zone -> {
                zone = row.title
                say(row.title)
            }
            is Later.PartEnd -> say(row.text)
            is Later.Next -> for (step in row.gesture.steps) {
                say(step.text)
                if (step.zoneTitle != zone) say(step.zoneTitle)
                zone = step.zoneTitle
                wanted(step)
                list(step.why)
                step.cautions.forEach(::mind)
            }
        }
    }
}

private fun Told.wanted(step: StepRow) = when (step.kind) {
    StepKind.MOVE -> named(R.string.routine_wanted, step.wanted)
    StepKind.LOOK -> named(R.string.routine_wanted_look, step.wanted)
    StepKind.WAIT -> Unit
}

fun Told.preview(state: PreviewState) {
    val way = state.way ?: return
    say(if (way.steps.isEmpty()) way.headline else context.getString(R.string.preview_takes, way.steps.size, way.gestureCount, context.duration(way.elapsedS)))
    say(way.endText)
    impossible(way.impossible)
    way.warnings.forEach(::mind)
    if (state.variants.isNotEmpty()) head(R.string.preview_variants)
    for (variant in state.variants) {
        part()
        say(variant.title)
        say(variant.about)
        if (variant.impossible.isEmpty()) say(R.string.preview_takes, variant.stepCount, variant.gestureCount, context.duration(variant.elapsedS))
        if (variant.id != state.shown()) list(variant.impossible)
    }
    rest(way.whole(), R.string.preview_steps)
}

fun Told.shared(state: SharedState) {
    val page = state.page ?: return
    say(page.headline)
    if (page.people.size > 1) say(R.string.shared_view)
    impossible(page.impossible)
    page.warnings.forEach(::mind)
    val person = page.people.getOrNull(state.who) ?: return
    part()
    if (page.people.size > 1) say(person.title)
    person.steps.forEachIndexed { index, row ->
        part()
        val step = row.step
        if (index == 0 || person.steps[index - 1].step.zoneId != step.zoneId) say(step.zoneTitle)
        say(row.wordText)
        say(step.text)
        if (step.kind == StepKind.LOOK) say(step.wanted)
        if (row.startS == 0) say(R.string.shared_at_once) else say(R.string.shared_start, context.duration(row.startS))
        step.cautions.forEach(::mind)
    }
}

fun Told.targets(state: TargetState) {
    for (target in state.targets.orEmpty()) {
        say(target.title)
        if (target.road) list(listOf(context.getString(R.string.target_road)))
        if (target.id == state.open) list(target.parts.map { it.title })
    }
}
