package org.stowfast.app

import androidx.compose.runtime.Composable
import org.stowfast.app.place.ArriveScreen
import org.stowfast.app.place.PlaceScreen
import org.stowfast.app.place.PlaceState
import org.stowfast.app.preview.PreviewScreen
import org.stowfast.app.preview.PreviewState
import org.stowfast.app.shared.SharedScreen
import org.stowfast.app.shared.SharedState
import org.stowfast.app.target.TargetScreen
import org.stowfast.app.target.TargetState
import org.stowfast.app.things.ThingsScreen
import org.stowfast.app.things.ThingsState
import org.stowfast.app.ui.Ways
import org.stowfast.engine.ChoiceRow
import org.stowfast.engine.NowPage
import org.stowfast.engine.OrderExact
import org.stowfast.engine.PartRow
import org.stowfast.engine.PersonRow
import org.stowfast.engine.PlaceRow
import org.stowfast.engine.Problem
import org.stowfast.engine.RoutinePage
import org.stowfast.engine.RuleRow
import org.stowfast.engine.RunRow
import org.stowfast.engine.Says
import org.stowfast.engine.SharedPage
import org.stowfast.engine.SharedStepRow
import org.stowfast.engine.StepRow
import org.stowfast.engine.TargetRow
import org.stowfast.engine.ThingRow
import org.stowfast.engine.VariantRow
import org.stowfast.engine.VerdictKind

/** The states of what lies round a routine: places, targets, two people, things. As in [States]. */
object TripStates {
    fun screens(ways: Ways, way: RoutinePage, steps: List<StepRow>): Map<String, @Composable () -> Unit> = mapOf(
        "targets" to { TargetScreen(TargetState(targets, open = null, emptySet(), problem = null), ways, {}) {} },
        "targets-parts" to { TargetScreen(TargetState(targets.drop(2), open = "serviced", setOf("waste"), problem = null), ways, {}) {} },
        "preview" to { preview(way, emptyList(), null, ways) },
        "preview-variants" to { preview(way.copy(impossible = listOf("You chose gas for this trip: one cylinder is open.")), variants, variants[1].id, ways) },
        "preview-done" to { preview(way.copy(verdict = VerdictKind.CLEAR, steps = emptyList(), stops = emptyList(), gestureCount = 0, headline = "Nothing is left to do."), emptyList(), null, ways) },
        "preview-wait" to { PreviewScreen(PreviewState(null, emptyList(), null, null, begun = false, problem = null), ways, {}) {} },
        "shared" to { SharedScreen(SharedState(shared(steps), who = 1, problem = null), ways) {} },
        "shared-one" to { SharedScreen(SharedState(shared(steps).let { it.copy(people = it.people.take(1), headline = "It stays with one person: time must pass in it.") }, who = 0, problem = null), ways) {} },
        "things" to { ThingsScreen(ThingsState(things, open = null, problem = null), ways) {} },
        "things-open" to { ThingsScreen(ThingsState(things, open = "pump.power", problem = Problem.NotFound("variable", "pump.power")), ways) {} },
        "place" to { place(placed.copy(rules = rules), ways) },
        "place-none" to { place(placed.copy(now = now(moving = true, ""), rules = rules.map { it.copy(told = false) }), ways) },
        "arrive" to { ArriveScreen(placed, ways, {}) {} },
        "arrive-unreadable" to { ArriveScreen(placed.copy(unreadable = true), ways, {}) {} },
    )

    @Composable
    private fun preview(way: RoutinePage, variants: List<VariantRow>, picked: String?, ways: Ways) =
        PreviewScreen(PreviewState(way, variants, picked, run, begun = false, problem = null), ways, {}) {}

    @Composable
    private fun place(state: PlaceState, ways: Ways) = PlaceScreen(state, ways, {}) {}

    private val run = RunRow(2, "pitched", "Pitched, with hook-up", paused = false, doneCount = 2, leftCount = 5)
    private val targets = listOf(
        TargetRow("drive", "Ready to drive", road = true, parts = emptyList()),
        TargetRow("pitched", "Pitched, with hook-up", road = false, parts = emptyList()),
        TargetRow("serviced", "Serviced", road = false, listOf(PartRow("waste", "Waste tank empty"), PartRow("cassette", "Toilet cassette emptied and rinsed"), PartRow("water", "Fresh water filled"))),
        TargetRow("winter", "Laid up for winter", road = false, parts = emptyList()),
    )
    private val variants = listOf(
        VariantRow("drive/shut", "gas shut", "Every gas cylinder is shut for this trip. Heating and fridge do without gas on the road.", chosen = true, stepCount = 14, elapsedS = 540, impossible = emptyList()),
        VariantRow("drive/open", "gas open", "Crash protection is fitted and the maker's manual allows it. Tunnels, ferries and fuel stations can still ask for shut.", chosen = false, stepCount = 12, elapsedS = 500, impossible = listOf("You chose gas for this trip: one cylinder is open.")),
    )

    private fun shared(steps: List<StepRow>): SharedPage {
        val rows = steps.mapIndexed { index, step ->
            val waits = index == 2
            SharedStepRow(step, startS = index * 45, wordId = if (waits) "s1" else null, wordText = if (waits) "Wait for the word: Switch the post off" else null)
        }
        return SharedPage(
            "drive", "Ready to drive", "For two: about 7 min. For one: about 12 min. Say each step aloud when it is done. No word: wait.",
            warnings = emptyList(), impossible = emptyList(), listOf(PersonRow("First person", rows.take(1)), PersonRow("Second person", rows)),
            elapsedS = 420, aloneS = 720, walkS = 90, OrderExact,
        )
    }

    private val things = listOf(
        ThingRow("pump.power", "Water pump", "lounge", "Lounge and panel", listOf(ChoiceRow("off", "Off"), ChoiceRow("on", "On")), listOf("on"), "On", "15 h ago"),
        ThingRow("roof.leaf", "Roof light over the lounge", "lounge", "Lounge and panel", listOf(ChoiceRow("shut", "Shut and locked"), ChoiceRow("open", "Open")), listOf("shut", "open"), "Not known", null),
        ThingRow("step.leaf", "Entrance step", "outside", "Outside, door side", listOf(ChoiceRow("in", "In"), ChoiceRow("out", "Out")), listOf("out"), "Out", "2 h ago"),
    )

    private val rules = listOf(
        rule("de", "Germany", "gas", "Gas cylinder open while driving", Says.ASK, "ask", "From memory: ask before you drive with gas open.", told = true),
        rule("de", "Germany", "tyres", "Driving on snow or ice with summer tyres", Says.FORBIDDEN, "forbidden", "Whatever the month: it is the state of the road that counts.", told = true),
        rule("carrier_ferry", "Ferry", "gas", "Gas cylinder open while driving", Says.ALLOWED, "allowed", "Ask the carrier when you book.", told = true),
        rule("at", "Austria", "gas", "Gas cylinder open while driving", Says.ASK, "ask", "Ask.", told = false),
        rule("carrier_shuttle_train", "Shuttle train", "gas", "Gas cylinder open while driving", Says.ASK, "ask", "Ask.", told = false),
    )

    private fun rule(place: String, title: String, rule: String, what: String, says: Says, word: String, note: String, told: Boolean) =
        RuleRow(place, title, place.substringAfter("carrier_", "").ifEmpty { null }, rule, what, says, word, note, source = "from memory, to be checked", date = "2026-11-26", told = told)

    private fun now(moving: Boolean, place: String) = NowPage(
        emergency = emptyList(), vehicleTitle = "Compact van with a pop top", placeTitle = place, moving = moving, verdict = VerdictKind.BLOCKED,
        headline = "Not ready to drive.", detail = "", items = emptyList(), itemCount = 14, oldestLookText = null, clockChanged = false, run = null, stands = null, fridge = null,
    )

    private val placed = PlaceState(
        now(moving = false, "Place: a pitch for the night · Drinking water: a tap here · Flames: allowed here · Ground: level here · Waste point: here · Tonight: no frost · Current at the post: 10 A"),
        places = listOf(
            PlaceRow("meadow", "A pitch without mains", "A meadow with a tap at the gate, and wind over the hill.", invented = true),
            PlaceRow("post", "A pitch with 16 A", "Level, with a post, a tap and a waste point of its own.", invented = true),
            PlaceRow("home", "The yard at home", "A post with 10 A and a drain.", invented = false),
        ),
        rules = emptyList(), unreadable = false, arrived = false, problem = null,
    )
}
