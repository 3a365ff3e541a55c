package org.stowfast.app.routine

import org.stowfast.engine.GestureKind
import org.stowfast.engine.GestureRow
import org.stowfast.engine.RoutinePage
import org.stowfast.engine.StepRow

/** What one gesture confirms: the engine's [row], and its [steps] in full, a line for each. */
data class Gesture(val row: GestureRow, val steps: List<StepRow>) {
    val id: String get() = row.steps.joinToString("+")

    val waits: Boolean get() = row.kind == GestureKind.WAIT

    /** The one step, where it is no list. */
    val alone: StepRow? get() = steps.singleOrNull()
}

/** What comes, row by row. */
sealed interface Later {
    data class Zone(val title: String) : Later

    data class Next(val gesture: Gesture) : Later

    data class PartEnd(val text: String) : Later
}

fun RoutinePage.current(): Gesture? = stops.firstOrNull()?.gestures?.firstOrNull()?.let(::gesture)

/** What comes after the current gesture. */
fun RoutinePage.later(): List<Later> = rows(skip = 1)

/** All of it, before it is begun. */
fun RoutinePage.whole(): List<Later> = rows(skip = 0)

private fun RoutinePage.rows(skip: Int): List<Later> = stops.flatMapIndexed { index, stop ->
    val gestures = if (index == 0) stop.gestures.drop(skip) else stop.gestures
    val zone = if (gestures.isEmpty()) emptyList() else listOf(Later.Zone(stop.zoneTitle))
    zone + gestures.map { Later.Next(gesture(it)) } + listOfNotNull(stop.partEnd?.let(Later::PartEnd))
}

private fun RoutinePage.gesture(row: GestureRow) = Gesture(row, row.steps.mapNotNull { id -> steps.find { it.id == id } })
