package org.stowfast.app

import androidx.compose.runtime.Composable
import org.stowfast.app.fridge.FridgeScreen
import org.stowfast.app.fridge.FridgeState
import org.stowfast.app.life.LifeScreen
import org.stowfast.app.now.Blocker
import org.stowfast.app.now.BlockerPage
import org.stowfast.app.now.DrivePage
import org.stowfast.app.now.NowScreen
import org.stowfast.app.now.NowState
import org.stowfast.app.reading.ReadingScreen
import org.stowfast.app.reading.ReadingState
import org.stowfast.app.record.RecordScreen
import org.stowfast.app.record.RecordState
import org.stowfast.app.routine.Ask
import org.stowfast.app.routine.Asking
import org.stowfast.app.routine.MoreSheet
import org.stowfast.app.routine.RoutineScreen
import org.stowfast.app.routine.RoutineState
import org.stowfast.app.routine.RoutineWays
import org.stowfast.app.ui.Ways
import org.stowfast.app.vehicle.VehicleFiles
import org.stowfast.app.vehicle.VehicleScreen
import org.stowfast.app.vehicle.VehicleState
import org.stowfast.app.vehicle.Written
import org.stowfast.engine.ChoiceRow
import org.stowfast.engine.DemoRow
import org.stowfast.engine.DoneRow
import org.stowfast.engine.EmergencyRow
import org.stowfast.engine.FridgePage
import org.stowfast.engine.FridgeSource
import org.stowfast.engine.GaugeChoice
import org.stowfast.engine.GaugeRow
import org.stowfast.engine.GaugeUnit
import org.stowfast.engine.GestureKind
import org.stowfast.engine.GestureRow
import org.stowfast.engine.ItemRow
import org.stowfast.engine.NowPage
import org.stowfast.engine.Odd
import org.stowfast.engine.OddCannot
import org.stowfast.engine.OddSeen
import org.stowfast.engine.OrderExact
import org.stowfast.engine.OrderGap
import org.stowfast.engine.Problem
import org.stowfast.engine.QuestionRow
import org.stowfast.engine.RoutinePage
import org.stowfast.engine.RunRow
import org.stowfast.engine.Severity
import org.stowfast.engine.StepKind
import org.stowfast.engine.StepRow
import org.stowfast.engine.StopRow
import org.stowfast.engine.VehicleRow
import org.stowfast.engine.VerdictKind

/** Every state that a screen can be in, once: for pictures and for the accessibility check. All words are invented. */
object States {
    private const val NOW_UTC_MS = 1_790_000_000_000L

    /** One of each kind. */
    private val problems: Map<String, Problem>
        get() = mapOf(
            "input" to Problem.InvalidInput("battery", "8 to 16 volts"),
            "not-found" to Problem.NotFound("entry", "12"),
            "conflict" to Problem.Conflict("no routine is under way"),
            "pack" to Problem.BrokenPack("van.toml", 0, "text in UTF-8"),
            "full" to Problem.StorageFull,
            "damaged" to Problem.StorageDamaged("/data/user/0/org.stowfast.app/databases/stowfast.db"),
            "newer" to Problem.NewerDatabase(7, 3),
            "internal" to Problem.Internal("disk I/O error"),
        )
    private val home = Ways(back = null, emergency = {})
    private val deeper = Ways(back = {}, emergency = {})

    private val screens: Map<String, @Composable () -> Unit> = mapOf(
        "vehicle-first" to { vehicle(emptyList(), null) },
        "vehicle-own" to { vehicle(vehicles.map { it.copy(current = !it.current) }, null) },
        "vehicle-list" to { vehicle(vehicles, Problem.BrokenPack("van.toml", 12, "a zone named in [zones]")) },
        "vehicle-saved" to { vehicle(vehicles, null, Written("stowfast.json", whole = true)) },
        "vehicle-not-saved" to { vehicle(vehicles, null, Written("stowfast.json", whole = false)) },
        "now-blocked" to { now(page(VerdictKind.BLOCKED, items, run(paused = false))) },
        "now-unknown" to { now(page(VerdictKind.UNKNOWN, items.filter { !it.knownBad }, null)) },
        "now-clear" to { now(page(VerdictKind.CLEAR, emptyList(), null)) },
        "now-moving" to {
            now(page(VerdictKind.BLOCKED, emptyList(), null).copy(moving = true, headline = "On the road.", detail = ""))
        },
        "now-moving-wrong" to {
            now(page(VerdictKind.BLOCKED, items.take(2), null).copy(moving = true, headline = "On the road.", detail = ""))
        },
        "now-clear-run" to { now(page(VerdictKind.CLEAR, emptyList(), run(paused = true))) },
        "now-emergency" to { now(page(VerdictKind.BLOCKED, items.take(1), null).copy(emergency = emergency)) },
        "drive" to { DrivePage(page(VerdictKind.CLEAR, emptyList(), null), DriveCardStates.page, deeper) {} },
        "drive-anyway" to { DrivePage(page(VerdictKind.BLOCKED, items, null), DriveCardStates.bare, deeper) {} },
        "blocker" to { blocker(steps.first(), against = emptyList(), run = null) },
        "blocker-not-yet" to { blocker(steps.first(), listOf("first: Switch at the post: off", "A plug moved under power can arc."), run(paused = false)) },
        "blocker-no-step" to { blocker(null, emptyList(), run(paused = true)) },
        "routine-hazard" to { routine(routinePage(steps, paused = false)) },
        "routine-look" to { routine(routinePage(steps.drop(1), paused = false)) },
        "routine-wait" to { routine(routinePage(listOf(wait) + steps.drop(3), paused = false)) },
        "routine-wait-more" to {
            routine(routinePage(listOf(wait), paused = false))
            MoreSheet(wait, {}, {}, {}, {})
        },
        "routine-list" to { routine(listPage) },
        "routine-list-odd" to { routine(listPage, odd = mapOf("s3" to OddCannot("the knob is off"), "s5" to OddSeen("open"))) },
        "routine-list-more" to {
            routine(listPage)
            MoreSheet(null, {}, {}, {}, {})
        },
        "routine-line" to { Asking(Ask.SEEN, steps[1], listed = true, OddSeen("open"), deeper, {}, {}, {}) },
        "routine-part-end" to { routine(routinePage(listOf(wait) + steps.drop(3), paused = false).copy(partEnd = PART_END)) },
        "routine-paused" to { routine(routinePage(steps, paused = true)) },
        "routine-finished" to { routine(routinePage(emptyList(), paused = false)) },
        "routine-sought" to { routine(routinePage(steps, paused = false), sought = "s4") },
        "routine-impossible" to { routine(blockedPage()) },
        "routine-more" to {
            routine(routinePage(steps, paused = false))
            MoreSheet(steps.first(), {}, {}, {}, {})
        },
        "routine-leave" to { routineAsked(Ask.LEAVE) },
        "routine-note" to { routineAsked(Ask.NOTE) },
        "routine-end" to { routineAsked(Ask.END) },
        "routine-other" to { routineAsked(Ask.SEEN) },
        "routine-cannot" to { routineAsked(Ask.CANNOT) },
        "fridge" to { FridgeScreen(FridgeState(fridge, answered = true, choosing = false, nowUtcMs = NOW_UTC_MS, problem = null), deeper, {}) {} },
        "reading" to { ReadingScreen(ReadingState(gauges, asked = "fresh", open = "fresh", problem = null), deeper) {} },
        "reading-typed" to { ReadingScreen(ReadingState(gauges, asked = "battery", open = "battery", problem = null), deeper) {} },
        "record" to { RecordScreen(RecordState(record, more = true, open = null, problem = null), deeper, {}) {} },
        "record-open" to { RecordScreen(RecordState(record, more = false, open = 12, problem = null), deeper, {}) {} },
        "record-none" to { RecordScreen(RecordState(emptyList(), more = false, open = null, problem = null), deeper, {}) {} },
        "emergency" to { LifeScreen(Ways(back = {}, emergency = null)) },
    )

    private fun failed(problem: Problem): @Composable () -> Unit =
        { NowScreen(nowState(null).copy(problem = problem), home, {}, {}) }

    val all: Map<String, @Composable () -> Unit>
        get() = screens + DriveCardStates.screens(deeper, fridge, NOW_UTC_MS) + RedStates.screens(deeper) + FaultStates.screens(deeper) + ReserveStates.screens(deeper) + CardStates.screens(deeper) + TripStates.screens(deeper, routinePage(steps, paused = false), steps) + MayStates.screens(deeper, steps.first()) + SystemStates.all + problems.map { (name, problem) -> "problem-$name" to failed(problem) }

    /**
     * A state is named after its screen, up to the first dash. The first state of a screen stands for it in dark, large
     * letters, high contrast, on its side and on a tablet.
     */
    val pages: List<String> get() = all.keys.map { it.substringBefore('-') }.distinct()

    fun of(page: String): Map<String, @Composable () -> Unit> = all.filterKeys { it.substringBefore('-') == page }

    private val vehicles = listOf(
        VehicleRow(1, "Compact van with a pop top", invented = true, current = true, problem = null),
        VehicleRow(2, "Coachbuilt with a garage", invented = false, current = false, problem = "Its pack no longer reads; it stands as it was last."),
    )
    private val demos = listOf(
        DemoRow("a", "Compact van with a pop top", "One gas cylinder, a three-way fridge, a cassette toilet and a roof light that forgets itself.", here = true),
        DemoRow("b", "Coachbuilt with a garage", "Two cylinders, a drop-down bed, steadies and a diesel heater.", here = false),
    )
    private val items = listOf(
        ItemRow("gas", "Gas valve at the cylinder", "shut", "open", "An open valve on the road feeds a broken pipe.", "common practice, no source", Severity.DANGER, true, "Rear left locker", "Smell gas? Light nothing, open the doors, get out."),
        ItemRow("step", "Entrance step", "in", "out", "It reaches beyond the side.", "common practice, no source", Severity.DAMAGE, true, "Outside right", null),
        ItemRow("light", "Roof light over the bed", "shut and latched", "not looked at for this departure", "Wind tears it off.", "default, check your manual", Severity.DAMAGE, false, "Bedroom", null),
    )
    private val emergency = listOf(EmergencyRow("co.alarm", "Carbon monoxide alarm: sounding", "Everyone out, now. Leave the doors open. Call the emergency number from outside.", listOf(ChoiceRow("quiet", "Quiet, and found out why"), ChoiceRow("sounding", "Sounding"))))
    private val fridge = FridgePage(
        title = "Fridge", source = FridgeSource.MAINS, headline = "Draws on mains. Leave it there.",
        why = listOf("The pitch gives mains.", "Mains comes first wherever it is there.", "The engine is off, so 12 V would drain the battery."),
        nextSource = FridgeSource.GAS, nextChangeUtcMs = NOW_UTC_MS + 873_000, nextText = "gas, when the wait after the engine is over",
        byHand = "Turn the selector to the plug.", cautions = listOf("Never on gas at a fuel station. Local rules come first."),
        manual = false, choices = listOf(ChoiceRow("auto", "Automatic"), ChoiceRow("mains", "Mains"), ChoiceRow("dc", "12 V"), ChoiceRow("gas", "Gas"), ChoiceRow("off", "Off")),
        ahead = DriveCardStates.ahead,
    )
    private val gauges = listOf(
        GaugeRow("fresh", "Fresh water", GaugeUnit.LAMPS, (0..4).map { GaugeChoice(it.toDouble(), "$it of 4 lamps") }, 0.0, 4.0, "50 to 75 L", "Read 2 hours ago", about = null, counts = true, note = null, questions = emptyList()),
        GaugeRow(
            "battery", "Leisure battery", GaugeUnit.VOLTS, emptyList(), 8.0, 16.0, "60 to 70 %", "Read yesterday", about = null, counts = false,
            note = "The charger is on. Let the battery rest for an hour first.",
            questions = listOf(QuestionRow("charger", "Is the charger on?", listOf(ChoiceRow("on", "On"), ChoiceRow("off", "Off")), "on")),
        ),
        GaugeRow(
            "gas", "Gas in the left cylinder", GaugeUnit.KILOGRAMS, emptyList(), 11.9, 23.9, "Part full", "Read yesterday",
            about = "Weigh the whole cylinder, off its hose: every flame out and its valve shut first. Empty it weighs 12.4 kg, and it holds 11 kg.",
            counts = true, note = null, questions = emptyList(),
        ),
    )
    private val steps = listOf(
        step("s1", StepKind.MOVE, "Shut the gas valve at the cylinder.", "Valve of the gas cylinder: shut", "Rear left locker", hazard = true),
        step("s2", StepKind.LOOK, "Look at the roof light over the bed.", "Roof light over the bed: shut", "Bedroom", hazard = true),
        step("s3", StepKind.MOVE, "Turn the fridge to 12 V.", "Fridge: set to 12 V", "Kitchen", hazard = false),
        step("s4", StepKind.MOVE, "Fold the step in.", "Entrance step: in", "Outside right", hazard = false),
    )

    private fun step(id: String, kind: StepKind, text: String, wanted: String, zone: String, hazard: Boolean) = StepRow(
        id, kind, text, wanted,
        cautions = if (hazard) listOf("Shut it at the cylinder, not only at the tap inside.") else emptyList(),
        why = listOf("An open valve on the road feeds a broken pipe."), zoneId = zone, zoneTitle = zone, hazard = hazard,
        handsOnS = 20, waitS = 0, walkS = 15, irreversible = false,
        choices = if (kind == StepKind.LOOK) listOf(ChoiceRow("shut", "shut and latched"), ChoiceRow("open", "open")) else emptyList(),
        card = "gas".takeIf { hazard },
    )

    private val wait = step("s0", StepKind.WAIT, "Wait until the water in the boiler has cooled: about 40 min", "Water in the boiler: cool", "Bedroom", hazard = false)
        .copy(why = listOf("Hot water scalds."), handsOnS = 0, waitS = 2400, walkS = 0)

    private val record = listOf(
        DoneRow(12, "Note (ask about the step)", NOW_UTC_MS, voided = false),
        DoneRow(11, "Taken back: Turn the fridge to 12 V", NOW_UTC_MS - 60_000, voided = false),
        DoneRow(10, "Turn the fridge to 12 V", NOW_UTC_MS - 120_000, voided = true),
        DoneRow(9, "Cannot: Fold the step in (the motor only hums)", NOW_UTC_MS - 180_000, voided = false),
    )

    private fun run(paused: Boolean) = RunRow(1, "drive", "Ready to drive", paused, doneCount = 3, leftCount = 4)

    private fun page(verdict: VerdictKind, items: List<ItemRow>, run: RunRow?) = NowPage(
        emergency = emptyList(),
        vehicleTitle = "Compact van with a pop top", placeTitle = "Place: a pitch for the night · Drinking water: a tap here · Flames: allowed here · Current at the post: 10 A", verdict = verdict,
        headline = when (verdict) {
            VerdictKind.CLEAR -> "The list is clear: 14 of 14 items hold."
            VerdictKind.BLOCKED -> "Not ready to drive: 2 known to be in the way."
            VerdictKind.UNKNOWN -> "Not known yet: one thing to look at."
        },
        detail = "Walk round once before you drive.", items = items, itemCount = 14, oldestLookText = "12 minutes ago",
        moving = false, clockChanged = verdict == VerdictKind.UNKNOWN, run = run, fridge = fridge,
    )

    private fun routinePage(steps: List<StepRow>, paused: Boolean) = RoutinePage(
        run(paused), if (steps.isEmpty()) VerdictKind.CLEAR else VerdictKind.BLOCKED,
        if (steps.isEmpty()) "The list is clear: 14 of 14 items hold." else "Still to do: 4.", steps,
        done = listOf(DoneRow(9, "Hook-up lead stowed", NOW_UTC_MS, voided = false)), stuck = emptyList(), warnings = emptyList(),
        impossible = emptyList(), proof = OrderExact, elapsedS = 180, walkS = 45, finished = steps.isEmpty(),
        stops = steps.map { stop(it.zoneTitle, listOf(it)) }, gestureCount = steps.size,
        endText = "Gas is shut, the lead is stowed, the step is in. Walk round once, then drive.", resumedFromPause = false,
        variants = emptyList(),
    )

    private fun stop(zone: String, steps: List<StepRow>) = StopRow(zone, zone, part = 1, partEnd = null, gestures = listOf(gesture(steps)))

    private fun gesture(steps: List<StepRow>): GestureRow {
        val kind = if (steps.size > 1) GestureKind.TOGETHER else GestureKind.OWN
        return GestureRow(
            if (steps.first().kind == StepKind.WAIT) GestureKind.WAIT else kind,
            steps.map { it.id }, steps.map { it.wanted }, hold = steps.any { it.hazard },
        )
    }

    private const val PART_END = "This part is done: Galley tap: open · Drain of the boiler: open. Nothing to do for about 40 min."

    /** A list, something of its own, and a list again. */
    private val listPage: RoutinePage
        get() {
            val window = step("s5", StepKind.LOOK, "Look at the window by the bed.", "Window by the bed: shut and locked", "Bedroom", hazard = true)
                .copy(cautions = listOf("Frozen or stiff: do not force it."))
            val pump = step("s6", StepKind.MOVE, "Switch the water pump off.", "Water pump: off", "Kitchen", hazard = false)
            val post = step("s7", StepKind.MOVE, "Switch the post off.", "Switch at the post: off", "Supply post", hazard = false)
            val list = listOf(steps[2], pump, window)
            val later = listOf(steps[3], post)
            return routinePage(list + steps.take(1) + later, paused = false).copy(
                stops = listOf(stop("Kitchen", list), stop("Rear left locker", steps.take(1)).copy(partEnd = "Then nothing to do for about 40 min."), stop("Outside right", later)),
                gestureCount = 3,
            )
        }

    private fun nowState(page: NowPage?) = NowState(
        page, vehicleMissing = false, road = "ready_to_drive", leaving = false, card = null, opened = null, nowUtcMs = NOW_UTC_MS, running = false, problem = null,
    )

    @Composable
    private fun now(page: NowPage) = NowScreen(nowState(page), home, {}, {})

    private fun blockedPage() = routinePage(steps.drop(2), paused = false).copy(
        impossible = listOf("Roof light over the bed must be shut, and is ajar. Wind tears it off.", "Roof light over the bed cannot be moved."),
        stuck = listOf(DoneRow(8, "Cannot: Shut the roof light over the bed (bent)", NOW_UTC_MS, voided = false)),
        warnings = listOf("The looks of this departure are too old and no longer count. Look again."),
        proof = OrderGap(gapS = 75), resumedFromPause = true,
    )

    @Composable
    private fun blocker(step: StepRow?, against: List<String>, run: RunRow?) =
        BlockerPage(Blocker(items.first(), routinePage(steps, paused = false), step, against), run, deeper) {}

    @Composable
    private fun routine(page: RoutinePage, sought: String? = null, odd: Map<String, Odd> = emptyMap()) =
        RoutineScreen(RoutineState(page, answered = true, odd = odd, confirmed = emptyList(), noted = null, closed = false, problem = null), deeper, sought, RoutineWays({}, {})) {}

    @Composable
    private fun routineAsked(ask: Ask) = Asking(ask, steps[1], listed = false, null, deeper, {}, {}, {})

    @Composable
    private fun vehicle(rows: List<VehicleRow>, problem: Problem?, written: Written? = null) =
        VehicleScreen(VehicleState(rows, demos, unreadable = false, written, problem = problem, chosen = false), if (rows.isEmpty()) home else deeper, VehicleFiles({}, {}, {}), {}) {}
}
