package org.stowfast.app.frame

import androidx.compose.foundation.layout.Box
import androidx.compose.foundation.layout.WindowInsets
import androidx.compose.foundation.layout.padding
import androidx.compose.foundation.layout.safeDrawing
import androidx.compose.foundation.layout.widthIn
import androidx.compose.foundation.layout.windowInsetsPadding
import androidx.compose.foundation.rememberScrollState
import androidx.compose.foundation.verticalScroll
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.runtime.LaunchedEffect
import androidx.compose.runtime.getValue
import androidx.compose.runtime.mutableStateListOf
import androidx.compose.runtime.mutableStateOf
import androidx.compose.runtime.remember
import androidx.compose.runtime.saveable.listSaver
import androidx.compose.runtime.saveable.rememberSaveable
import androidx.compose.runtime.setValue
import androidx.compose.runtime.snapshotFlow
import androidx.compose.runtime.snapshots.SnapshotStateList
import androidx.compose.runtime.toMutableStateList
import androidx.compose.ui.Alignment
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.LiveRegionMode
import androidx.compose.ui.semantics.liveRegion
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.unit.dp
import org.stowfast.app.R
import org.stowfast.app.about.AboutScreen
import org.stowfast.app.about.LicencesRoute
import org.stowfast.app.alert.AlertRoute
import org.stowfast.app.alert.AlertWays
import org.stowfast.app.card.CardRoute
import org.stowfast.app.card.CardWays
import org.stowfast.app.cards.CardsRoute
import org.stowfast.app.cards.CardsWays
import org.stowfast.app.crash.CrashOffer
import org.stowfast.app.crash.CrashRoute
import org.stowfast.app.crash.Crashes
import org.stowfast.app.drivecard.DriveCardRoute
import org.stowfast.app.fault.FaultRoute
import org.stowfast.app.fault.FaultWays
import org.stowfast.app.faults.FaultsRoute
import org.stowfast.app.figures.FiguresRoute
import org.stowfast.app.fridge.FridgeRoute
import org.stowfast.app.level.LevelRoute
import org.stowfast.app.life.LifeScreen
import org.stowfast.app.may.MayRoute
import org.stowfast.app.may.MayWays
import org.stowfast.app.now.NowRoute
import org.stowfast.app.now.NowWays
import org.stowfast.app.place.PlaceRoute
import org.stowfast.app.preview.PreviewRoute
import org.stowfast.app.reading.ReadingRoute
import org.stowfast.app.record.RecordRoute
import org.stowfast.app.red.RedRoute
import org.stowfast.app.reserve.ReserveRoute
import org.stowfast.app.routine.RoutineRoute
import org.stowfast.app.routine.RoutineWays
import org.stowfast.app.settings.SettingsRoute
import org.stowfast.app.shared.SharedRoute
import org.stowfast.app.questions.QuestionsRoute
import org.stowfast.app.reckon.ReckonRoute
import org.stowfast.app.reckon.ReckonWays
import org.stowfast.app.stay.StayRoute
import org.stowfast.app.stay.StayWays
import org.stowfast.app.steps.StepsRoute
import org.stowfast.app.target.TargetRoute
import org.stowfast.app.things.ThingsRoute
import org.stowfast.app.ui.Lines
import org.stowfast.app.ui.MainButton
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.roles
import org.stowfast.app.vehicle.VehicleRoute
import org.stowfast.engine.Outcome
import org.stowfast.engine.Pick
import org.stowfast.engine.VehicleEngine

/** The places in the app. *Now* is home; every other place lies on top of it. */
enum class Place { NOW, VEHICLE, TARGET, PREVIEW, ROUTINE, SHARED, WHERE, ARRIVE, THINGS, FRIDGE, READING, RECORD, RED, ALERT, LIFE, CARDS, CARD, RESERVES, SETTINGS, DRIVE_CARD, ABOUT, LICENCES, CRASH, STEPS, MAY, FAULTS, FAULT, FIGURES, STAY, QUESTIONS, RECKON, LEVEL }

/**
 * The pages, the way between them, and the notices that a command brought back. It begins where it was when the process
 * died, and goes where it is [sentTo] from outside.
 */
@Composable
fun Frame(engine: VehicleEngine, where: Where, crashes: Crashes, sentTo: Place?, onGone: () -> Unit) {
    val stack = rememberSaveable(saver = stackSaver) { where.read().toMutableStateList() }
    var crashed by rememberSaveable { mutableStateOf(crashes.unseen) }
    var sought by rememberSaveable { mutableStateOf<String?>(null) }
    var aim by rememberSaveable { mutableStateOf("") }
    var alert by rememberSaveable { mutableStateOf("") }
    var shared by rememberSaveable { mutableStateOf("") }
    var card by rememberSaveable { mutableStateOf("") }
    var asked by rememberSaveable { mutableStateOf(listOf("")) }
    var leave by remember { mutableStateOf(false) }
    var gauge by rememberSaveable { mutableStateOf("") }
    var question by rememberSaveable { mutableStateOf(where.question) }
    var fault by rememberSaveable { mutableStateOf(where.fault) }
    var given by remember { mutableStateOf(emptyList<Pick>()) }
    val notices = remember { mutableStateListOf<String>() }
    LaunchedEffect(engine) {
        (engine.notices() as? Outcome.Done)?.let { opened -> notices += opened.value }
    }
    LaunchedEffect(engine) {
        engine.changes.collect { changes -> notices += changes.warnings.filter { it !in notices } }
    }

    fun go(place: Place) {
        stack -= place
        stack += place
    }
    fun goToStep(step: String?) {
        sought = step
        go(Place.ROUTINE)
    }
    fun preview(target: String) {
        aim = target
        go(Place.PREVIEW)
    }
    fun share(target: String) {
        shared = target
        go(Place.SHARED)
    }
    fun alert(id: String) {
        alert = id
        go(Place.ALERT)
    }
    fun card(fitting: String) {
        card = fitting
        go(Place.CARD)
    }
    fun may(step: String) {
        asked = listOf(step)
        go(Place.MAY)
    }
    /** What comes before what is asked: back leads to the first question. */
    fun mayFirst(step: String) {
        asked = asked + step
    }
    fun read(id: String) {
        gauge = id
        go(Place.READING)
    }
    fun ask(id: String) {
        question = id
        where.question = id
        go(Place.RECKON)
    }
    /** Asks the question that was on show with what the phone felt. */
    fun asFelt(picks: List<Pick>) {
        given = picks
        stack -= Place.LEVEL
        go(Place.RECKON)
    }
    fun fault(id: String) {
        fault = id
        where.fault = id
        go(Place.FAULT)
    }
    fun home() {
        while (stack.size > 1) stack.removeAt(stack.lastIndex)
    }
    fun back() {
        if (stack.last() == Place.MAY && asked.size > 1) {
            asked = asked.dropLast(1)
        } else if (stack.size > 1) {
            stack.removeAt(stack.lastIndex)
        }
    }
    LaunchedEffect(sentTo) {
        if (sentTo != null) {
            go(sentTo)
            onGone()
        }
    }
    LaunchedEffect(Unit) { snapshotFlow { stack.toList() }.collect(where::keep) }

    val here = stack.last()
    val ways = Ways(
        back = if (stack.size > 1) ::back else null,
        emergency = if (here == Place.LIFE) null else ({ go(Place.LIFE) }),
    )
    Box {
        when (here) {
            Place.NOW -> NowRoute(engine, ways, NowWays(::go, ::preview), leave, { leave = false }, ::goToStep)
            Place.VEHICLE -> VehicleRoute(engine, ways, { go(Place.SETTINGS) }, ::back)
            Place.TARGET -> TargetRoute(engine, ways, ::preview)
            Place.PREVIEW -> PreviewRoute(engine, ways, aim, ::share) {
                home()
                goToStep(null)
            }
            Place.ROUTINE -> RoutineRoute(engine, ways, sought, RoutineWays(::share, ::card) {
                leave = true
                home()
            }, ::back)
            Place.SHARED -> SharedRoute(engine, ways, shared)
            Place.WHERE -> PlaceRoute(engine, ways, arriving = false, { go(Place.ARRIVE) }, ::home)
            Place.ARRIVE -> PlaceRoute(engine, ways, arriving = true, {}, ::home)
            Place.THINGS -> ThingsRoute(engine, ways)
            Place.FRIDGE -> FridgeRoute(engine, ways, ::preview)
            Place.READING -> ReadingRoute(engine, ways, gauge)
            Place.RESERVES -> ReserveRoute(engine, ways, ::go, ::read)
            Place.FIGURES -> FiguresRoute(engine, ways)
            Place.STAY -> StayRoute(engine, ways, StayWays(::read) { go(Place.FIGURES) })
            Place.QUESTIONS -> QuestionsRoute(engine, ways, ::ask)
            Place.RECKON -> ReckonRoute(engine, ways, question, ReckonWays(::read) { go(Place.LEVEL) }, given) { given = emptyList() }
            Place.LEVEL -> LevelRoute(engine, ways, ::asFelt)
            Place.SETTINGS -> SettingsRoute(engine, ways) { go(Place.ABOUT) }
            Place.DRIVE_CARD -> DriveCardRoute(engine, ways)
            Place.RECORD -> RecordRoute(engine, ways, ::preview)
            Place.RED -> RedRoute(engine, ways, { go(Place.FAULTS) }, ::alert)
            Place.ALERT -> AlertRoute(engine, ways, alert, AlertWays(::preview, ::goToStep, ::card, ::fault))
            Place.LIFE -> LifeScreen(ways)
            Place.CARDS -> CardsRoute(engine, ways, CardsWays({ go(Place.STEPS) }, ::card, ::alert, ::fault, ::preview, ::ask))
            Place.CARD -> CardRoute(engine, ways, card, CardWays(::alert, ::fault, ::preview, ::may))
            Place.STEPS -> StepsRoute(engine, ways, ::may)
            Place.MAY -> MayRoute(engine, ways, asked.last(), MayWays(::card, ::mayFirst, ::preview))
            Place.FAULTS -> FaultsRoute(engine, ways, ::fault)
            Place.FAULT -> FaultRoute(engine, ways, fault, FaultWays(::preview, ::may, ::card, ::alert, ::home))
            Place.ABOUT -> AboutScreen(ways, crashes.report != null, ::go)
            Place.LICENCES -> LicencesRoute(ways)
            Place.CRASH -> CrashRoute(ways, crashes)
        }
        if (notices.isNotEmpty() && here != Place.LIFE) {
            Notices(notices, notices::clear, Modifier.align(Alignment.BottomCenter))
        } else if (crashed && here != Place.LIFE) {
            CrashOffer(Modifier.align(Alignment.BottomCenter)) { see ->
                crashed = false
                crashes.seen()
                if (see) go(Place.CRASH)
            }
        }
    }
}

@Composable
private fun Notices(notices: List<String>, onUnderstood: () -> Unit, modifier: Modifier) {
    Box(modifier.windowInsetsPadding(WindowInsets.safeDrawing).padding(12.dp).widthIn(max = 640.dp)) {
        Panel(
            Modifier.testTag("notices").semantics { liveRegion = LiveRegionMode.Polite },
            tone = roles.unknown,
        ) {
            Text(stringResource(R.string.notice_heading), style = MaterialTheme.typography.titleMedium)
            Lines(notices, Modifier.weight(1f, fill = false).verticalScroll(rememberScrollState()))
            MainButton(stringResource(R.string.understood), onUnderstood)
        }
    }
}

private val stackSaver = listSaver<SnapshotStateList<Place>, String>(
    save = { stack -> stack.map { it.name } },
    restore = { names -> names.map(Place::valueOf).toMutableStateList() },
)
