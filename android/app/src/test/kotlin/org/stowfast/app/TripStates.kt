package org.stowfast.app

import androidx.compose.runtime.Composable
import org.stowfast.app.place.ArriveScreen
import org.stowfast.app.place.PlaceScreen
import org.stowfast.app.place.PlaceState
import org.stowfast.app.record.RecordScreen
import org.stowfast.app.record.RecordState
import org.stowfast.app.things.ThingsScreen
import org.stowfast.app.things.ThingsState
import org.stowfast.app.ui.Ways
import org.stowfast.app.vehicle.VehicleFiles
import org.stowfast.app.vehicle.VehicleScreen
import org.stowfast.app.vehicle.VehicleState
import org.stowfast.app.vehicle.Written
import org.stowfast.engine.DoneRow
import org.stowfast.engine.Problem

/** What lies round a routine: places, things, the record, vehicles. */
object TripStates {
    fun screens(ways: Ways): Map<String, @Composable () -> Unit> = mapOf(
        "things" to { ThingsScreen(ThingsState(pitched.get { things() }, open = null, problem = null), ways) {} },
        "things-open" to { ThingsScreen(ThingsState(pitched.get { things() }, open = "engine.running", pitched.problem { report("pump.power", "loud") }), ways) {} },
        "place" to { PlaceScreen(place(pitched), ways, {}) {} },
        "place-none" to { PlaceScreen(place(driven), ways, {}) {} },
        "arrive" to { ArriveScreen(place(driven), ways, {}) {} },
        "arrive-unreadable" to { ArriveScreen(place(driven).copy(unreadable = true), ways, {}) {} },
        "record" to { RecordScreen(RecordState(record(), more = true, open = null, problem = null), ways, {}) {} },
        "record-open" to { RecordScreen(RecordState(record(), more = false, open = record().first { !it.voided }.entry, problem = null), ways, {}) {} },
        "record-none" to { RecordScreen(RecordState(emptyList(), more = false, open = null, problem = null), ways, {}) {} },
        "vehicle-first" to { vehicle(none, Ways(back = null, emergency = {})) },
        "vehicle-own" to { vehicle(own, ways) },
        "vehicle-list" to { vehicle(own, ways, problem = own.problem { addPack("stowfast_pack = 1\ntitle = 7\n", "van.toml") }) },
        "vehicle-saved" to { vehicle(own, ways, Written("stowfast.json", whole = true)) },
        "vehicle-not-saved" to { vehicle(own, ways, Written("stowfast.json", whole = false)) },
    )

    private val none = Scene(vehicle = null)
    private val driven = Scene.driven()
    private val pitched = Scene {
        carryOut("ready_to_drive")
        get { driveOff() }
        pass(Scene.HOUR_MS)
        get { arriveAt("pitch_16a") }
        get { tellCountry("de") }
        get { tellCarrier("ferry") }
        report("pitch.tonight" to "mild", "pitch.flame" to "allowed")
    }

    /** Something taken back, something that could not be done, and a note. */
    private val told = Scene {
        get { openRun("ready_to_drive") }
        repeat(2) { confirm() }
        val last = get { log(1) }.single().entry
        get { unmark(last) }
        get { cannot("step.in", "the motor only hums") }
        get { note("ask about the step") }
    }

    /** Of two, one came from another phone, with a pack that is for another version. */
    private val own = Scene(vehicle = null) {
        get { addPack(DEMO_PACK.replace("Wren", "Our van"), "van.toml") }
        val kept = get { exportText() }
        get { importText(kept.replace("Our van", "The old van").replace("stowfast_pack = 1", "stowfast_pack = 9"), "old.json") }
    }

    private fun record(): List<DoneRow> = told.get { log(200) }

    private fun place(scene: Scene) = PlaceState(scene.get { nowPage() }, scene.get { places() }, scene.get { rules() }, unreadable = false, arrived = false, problem = null)

    @Composable
    private fun vehicle(scene: Scene, ways: Ways, written: Written? = null, problem: Problem? = null) =
        VehicleScreen(VehicleState(scene.get { vehicles() }, scene.get { demos() }, unreadable = false, written, problem, chosen = false), ways, VehicleFiles({}, {}, {}), {}) {}
}
