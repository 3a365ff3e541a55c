package org.stowfast.app

import androidx.compose.runtime.Composable
import org.stowfast.app.drivecard.DriveCardScreen
import org.stowfast.app.drivecard.DriveCardState
import org.stowfast.app.fridge.FridgeScreen
import org.stowfast.app.fridge.FridgeState
import org.stowfast.app.ui.Ways
import org.stowfast.engine.DriveCardPage
import org.stowfast.engine.DriveCardRow
import org.stowfast.engine.FridgeAheadRow
import org.stowfast.engine.FridgePage
import org.stowfast.engine.LeaveRow
import org.stowfast.engine.Problem

/** The states of the drive card, and of what lies ahead of the fridge. All words are invented. */
object DriveCardStates {
    fun screens(ways: Ways, fridge: FridgePage, nowUtcMs: Long): Map<String, @Composable () -> Unit> = mapOf(
        "drive-card" to { DriveCardScreen(DriveCardState(page, problem = null), ways) {} },
        "drive-card-bare" to { DriveCardScreen(DriveCardState(bare, Problem.Conflict("no vehicle is chosen")), ways) {} },
        "fridge-ahead" to { FridgeScreen(alone(fridge, ahead, choosing = false, nowUtcMs), ways, {}) {} },
        "fridge-leave" to { FridgeScreen(alone(fridge, leaving(late = false), choosing = true, nowUtcMs), ways, {}) {} },
        "fridge-late" to { FridgeScreen(alone(fridge, leaving(late = true), choosing = false, nowUtcMs), ways, {}) {} },
    )

    private fun alone(fridge: FridgePage, ahead: List<FridgeAheadRow>, choosing: Boolean, nowUtcMs: Long): FridgeState {
        val page = fridge.copy(byHand = null, nextText = null, why = emptyList(), cautions = emptyList(), choices = emptyList(), ahead = ahead)
        return FridgeState(page, answered = true, choosing, nowUtcMs, problem = null)
    }

    val page = DriveCardPage(
        "Compact van with a pop top",
        row("height", "Height", "2.89 m", "With everything on the roof."),
        listOf(
            row("width", "Width", "2.74 m", "Over the mirrors, folded out."),
            row("length", "Length", "6.52 m", "With what is carried behind."),
            row("mass_permissible", "Permissible mass", "3500 kg", "With everything and everybody aboard."),
            missing("mass_running", "Mass in running order", "It stands in the vehicle's papers."),
            row("axle_1", "Tyre pressure, front axle", "4.25 bar", "Cold."),
            row("axle_2", "Tyre pressure, rear axle, twin tyres", "4.75 bar", "Cold."),
        ),
        listOf("Signs, the vehicle's papers, the maker's manual and local rules come first."),
    )

    val bare = page.copy(
        height = missing("height", "Height", "Measure it before you drive, with everything on the roof."),
        rows = listOf(missing("width", "Width", "Measure it over the mirrors."), missing("pressure", "Tyre pressures", "On the door pillar.")),
    )

    val ahead = listOf(
        FridgeAheadRow("chill", "Before a trip", listOf("Switch it on at least 12 hours before you load it. Default, check your manual.", "Mains feeds it: cool it down on that."), readyUtcMs = 1_790_043_200_000L, leave = leave(null), targetId = null),
        FridgeAheadRow("fuel", "At the fuel station", listOf("Left on automatic, it may light gas by itself 20 min after the engine stops.", "Switch it off before you drive in."), readyUtcMs = null, leave = null, targetId = "refuel"),
        FridgeAheadRow("ferry", "On a ferry", listOf("On the deck nothing runs it.", "Keep its door shut."), readyUtcMs = null, leave = null, targetId = "board"),
    )

    /** On how things stand, or late; a departure four hours and more ahead. */
    private fun leave(chosen: Long?, late: Boolean = false) = LeaveRow(
        listOf(6L, 12L, 24L, 48L).map { 1_790_002_800_000L + it * 3_600_000L }, chosen,
        chosen?.minus(3_600_000L), chosen?.plus(3_600_000L), chosen?.minus(if (late) 14_400_000L else 43_200_000L),
        chosen?.let { if (late) "Begin now. From warm it takes 8 h longer than you have: then it is not cold when you leave. Load only what is cold already." else "As things stand here now. Look again before you switch it on: what feeds it then is what counts." },
    )

    private fun leaving(late: Boolean) = listOf(ahead.first().copy(leave = leave(1_790_089_200_000L, late))) + ahead.drop(1)

    private fun row(id: String, title: String, text: String, note: String) = DriveCardRow(id, title, text, note, known = true)

    private fun missing(id: String, title: String, note: String) = DriveCardRow(id, title, "not in the pack", note, known = false)
}
