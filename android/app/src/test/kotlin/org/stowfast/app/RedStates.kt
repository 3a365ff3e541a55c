package org.stowfast.app

import androidx.compose.runtime.Composable
import org.stowfast.app.alert.AlertScreen
import org.stowfast.app.alert.AlertState
import org.stowfast.app.alert.AlertWays
import org.stowfast.app.red.RedScreen
import org.stowfast.app.red.RedState
import org.stowfast.app.ui.Ways
import org.stowfast.engine.ActionRow
import org.stowfast.engine.AlertPage
import org.stowfast.engine.AlertRow
import org.stowfast.engine.LinkRow
import org.stowfast.engine.MeaningRow
import org.stowfast.engine.Problem
import org.stowfast.engine.ReportRow
import org.stowfast.engine.Shown
import org.stowfast.engine.StepKind

/** What shows red. All words are invented. */
object RedStates {
    fun screens(ways: Ways): Map<String, @Composable () -> Unit> = mapOf(
        "red" to { RedScreen(RedState(rows, problem = null), ways, {}, {}) {} },
        "red-none" to { RedScreen(RedState(emptyList(), problem = null), ways, {}, {}) {} },
        "red-failed" to { RedScreen(RedState(null, Problem.Internal("disk I/O error")), ways, {}, {}) {} },
        "alert" to { alert(fault, ways) },
        "alert-normal" to { alert(page(rows[1], listOf(meaning("on", "The pump is on.", certain = true, normal = true)), null), ways) },
        "alert-unknown" to { alert(page(rows[2], fault.meanings.map { it.copy(certain = false) }, null), ways) },
        "alert-wait" to { AlertScreen(AlertState(page = null, planned = emptySet(), reports = 0, problem = null), ways, nowhere) {} },
    )

    private val nowhere = AlertWays({}, {}, {})

    @Composable
    private fun alert(page: AlertPage, ways: Ways) = AlertScreen(AlertState(page, setOf("tank.empty"), reports = 0, problem = null), ways, nowhere) {}

    private val rows = listOf(
        row("tank.full", "Waste tank is full", "A red lamp beside the tank on the panel", Shown.YES, normal = false),
        row("pump.lamp", "Pump lamp", "A red lamp in the pump switch", Shown.YES, normal = true),
        row("fridge.gas", "Fridge fails on gas", "A red lamp that blinks on the fridge", Shown.UNKNOWN, normal = false),
        row("step.out", "Entrance step is out", "A red lamp by the wheel, and a tone", Shown.NO, normal = false),
    )

    private fun row(id: String, title: String, sign: String, shown: Shown, normal: Boolean) = AlertRow(
        id, title, sign, "lounge", "Lounge and panel", shown, normal, "What it means.", ReportRow(id, "on", "$title: it shows"),
    )

    private fun meaning(id: String, text: String, certain: Boolean, normal: Boolean) =
        MeaningRow(id, text, certain, normal, emptyList(), emptyList(), "", routine = null, emptyList(), emptyList())

    private val fault = page(
        rows[0],
        listOf(
            meaning("full", "The waste tank is full.", certain = true, normal = false).copy(
                doNow = listOf("Shut the taps.", "Look under the vehicle for drips."), stopNow = listOf("Do not run the shower."),
                trip = "You may drive to the next waste point.", routine = LinkRow("serviced", "Serviced"),
                steps = listOf(
                    ActionRow("tank.empty", StepKind.MOVE, "Empty the waste tank", "outside", "Outside, door side", hazard = false),
                    ActionRow("tank.rinse", StepKind.MOVE, "Rinse the waste tank", "outside", "Outside, door side", hazard = true),
                ),
                finds = listOf(ReportRow("tank.level", "half", "Waste tank: half full")),
            ),
            meaning("probe", "A probe in the tank is dirty.", certain = false, normal = false).copy(doNow = listOf("Rinse the tank.")),
        ),
        ReportRow("tank.level", "empty", "Waste tank: empty"),
    )

    private fun page(row: AlertRow, meanings: List<MeaningRow>, cleared: ReportRow?) = AlertPage(
        row, meanings, cleared, help = listOf("It stays on with an empty tank: ask a workshop."),
        cautions = listOf("Empty it only where that is allowed."), cards = listOf(LinkRow("tank", "Waste tank")), source = "common practice, no source",
    )
}
