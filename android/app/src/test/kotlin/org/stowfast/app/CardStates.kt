package org.stowfast.app

import androidx.compose.runtime.Composable
import org.stowfast.app.card.CardScreen
import org.stowfast.app.card.CardState
import org.stowfast.app.card.CardWays
import org.stowfast.app.cards.CardsScreen
import org.stowfast.app.cards.CardsState
import org.stowfast.app.cards.CardsWays
import org.stowfast.app.ui.Ways
import org.stowfast.engine.CardPage
import org.stowfast.engine.CardRow
import org.stowfast.engine.HitKind
import org.stowfast.engine.HitRow
import org.stowfast.engine.LinkRow
import org.stowfast.engine.MoveRow
import org.stowfast.engine.Problem
import org.stowfast.engine.SectionRow
import org.stowfast.engine.StepKind

/** How to use what is fitted. All words are invented. */
object CardStates {
    fun screens(ways: Ways): Map<String, @Composable () -> Unit> = mapOf(
        "cards" to { CardsScreen(CardsState(rows, asked = "", found = null, problem = null), ways, anywhere) {} },
        "cards-found" to { CardsScreen(CardsState(rows, "hot water", hits, problem = null), ways, anywhere) {} },
        "cards-life" to { CardsScreen(CardsState(rows, "smell of gas", listOf(life) + hits.take(1), problem = null), ways, anywhere) {} },
        "cards-nothing" to { CardsScreen(CardsState(rows, "xylophone", emptyList(), problem = null), ways, anywhere) {} },
        "cards-none" to { CardsScreen(CardsState(emptyList(), asked = "", found = null, problem = null), ways, anywhere) {} },
        "card" to { CardScreen(CardState(page, problem = null), ways, nowhere) {} },
        "card-moves" to { CardScreen(CardState(page.copy(note = "", sections = emptyList()), problem = null), ways, nowhere) {} },
        "card-wait" to { CardScreen(CardState(page = null, problem = null), ways, nowhere) {} },
        "card-gone" to { CardScreen(CardState(page = null, Problem.NotFound("card", "hob")), ways, nowhere) {} },
    )

    private val nowhere = CardWays({}, {}, {}, {})
    private val anywhere = CardsWays({}, {}, {}, {}, {})

    private val hits = listOf(
        HitRow(HitKind.CARD, "boiler", "Boiler", "Outside, door side; Lounge and panel", line = "", emergency = false),
        HitRow(HitKind.FAULT, "no_hot_water", "No hot water", "Outside, door side", "Its drain is open, so it is empty.", emergency = false),
        HitRow(HitKind.ALERT, "boiler.locked_out", "Boiler is locked out", "A red lamp on the boiler panel", "Switch the boiler off.", emergency = false),
        HitRow(HitKind.ROUTINE, "laid_up_winter", "Laid up for the winter", about = "", line = "", emergency = false),
    )
    private val life = HitRow(HitKind.ALERT, "gas_alarm.sounds", "Gas alarm sounds", "A loud tone, low on the wall", line = "", emergency = true)

    private val rows = listOf(
        CardRow("boiler", "boiler", "Boiler", "outside", "Outside, door side; Lounge and panel"),
        CardRow("hob", "hob", "Hob with two burners", "kitchen", "Kitchen"),
        CardRow("pump", "pump", "Water pump", "lounge", "Lounge and panel"),
    )

    private val page = CardPage(
        rows[0],
        note = "The cover is kept in the left locker.",
        sections = listOf(
            section("start", "Start", "Take the cover off.", "Shut the drain, fill it, then switch it on."),
            section("use", "Use", "About half an hour to hot."),
            section("stop", "Stop", "Switch it off. Put the cover on when it is cold."),
            section("care", "Look after", "Drain it before frost."),
            section("normal", "What is normal", "It roars softly, and clicks as it starts."),
            section("caution", "Mind", "It burns gas and makes fumes. Keep the flue free. Local rules come first.", "The flue gets hot enough to burn skin."),
        ),
        alerts = listOf(LinkRow("boiler.locked_out", "Boiler is locked out")),
        faults = listOf(LinkRow("no_hot_water", "No hot water"), LinkRow("boiler_locks_out", "Boiler locks out, red lamp")),
        routines = listOf(LinkRow("cylinder_changed", "Gas cylinder changed")),
        steps = listOf(
            move("heat_gas", "Switch the boiler on, on gas", refused = true, "not now"),
            move("switch_off", "Switch the boiler off", refused = false, "so already"),
            move("open_drain", "Open the drain of the boiler", refused = false, ""),
        ),
    )

    private fun move(id: String, text: String, refused: Boolean, stands: String) =
        MoveRow("boiler.$id", StepKind.MOVE, text, "lounge", "Lounge and panel", hazard = true, refused, isSo = stands == "so already", stands)

    private fun section(id: String, title: String, vararg lines: String) = SectionRow(id, title, lines.toList())
}
