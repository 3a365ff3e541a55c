package org.stowfast.engine

import kotlinx.coroutines.flow.SharedFlow

/**
 * All that the app asks of the core. Every call is safe from any thread, runs after those before it,
 * and takes the moment from the clock that the engine was given.
 */
interface VehicleEngine : AutoCloseable {
    /** What each command wrote, as it is written. Pages are read anew when one arrives. */
    val changes: SharedFlow<Changes>

    /** The wall clock, for a countdown. Unit: ms since 1970-01-01 UTC. */
    fun utcMs(): Long

    /** What the owner must be told of how the record opened. */
    suspend fun notices(): Outcome<List<String>>

    suspend fun demos(): Outcome<List<DemoRow>>

    suspend fun vehicles(): Outcome<List<VehicleRow>>

    suspend fun addDemo(id: String): Outcome<Long>

    suspend fun addPack(packToml: String, fileName: String): Outcome<Long>

    /** Gives a vehicle a corrected pack. Its record stays; the warnings name what is gone. */
    suspend fun replacePack(vehicleId: Long, packToml: String, fileName: String): Outcome<Changes>

    suspend fun chooseVehicle(id: Long): Outcome<Unit>

    suspend fun targets(): Outcome<List<TargetRow>>

    suspend fun nowPage(): Outcome<NowPage>

    suspend fun openRun(targetId: String): Outcome<Changes>

    suspend fun routine(): Outcome<RoutinePage?>

    /** The way to a target from where everything stands, without beginning a routine. */
    suspend fun preview(targetId: String): Outcome<RoutinePage>

    /** Every reason against taking a step now; none where it may be taken. */
    suspend fun refusals(stepId: String): Outcome<List<String>>

    suspend fun confirm(lines: List<Line>): Outcome<Changes>

    suspend fun tick(stepId: String): Outcome<Changes>

    suspend fun look(stepId: String, choiceId: String): Outcome<Changes>

    suspend fun unmark(entry: Long): Outcome<Changes>

    /** Takes back all of [entries], as a list that was confirmed at once, or none of them. */
    suspend fun takeBack(entries: List<Long>): Outcome<Changes>

    suspend fun cannot(stepId: String, note: String): Outcome<Changes>

    suspend fun leftAnyway(stepId: String, note: String): Outcome<Changes>

    suspend fun clearStuck(entry: Long): Outcome<Changes>

    suspend fun note(note: String): Outcome<Changes>

    suspend fun pause(): Outcome<Changes>

    suspend fun resume(): Outcome<Changes>

    suspend fun closeRun(): Outcome<Changes>

    suspend fun report(variable: String, setting: String): Outcome<Changes>

    suspend fun fridge(): Outcome<FridgePage?>

    /** The same, with by when to begin cooling it down for a departure. Unit: ms since 1970-01-01 UTC. */
    suspend fun fridgeFor(leaveUtcMs: Long): Outcome<FridgePage?>

    suspend fun setFridge(selector: String): Outcome<Changes>

    suspend fun gauges(): Outcome<List<GaugeRow>>

    suspend fun enterReading(gaugeId: String, unit: GaugeUnit, value: Double): Outcome<Changes>

    /** Every tank, cassette and battery: what is left, what is used and how long it lasts. */
    suspend fun reserves(): Outcome<ReservePage>

    /** Every number that only the people on board can tell, as far as they told it. */
    suspend fun figures(): Outcome<List<FigureRow>>

    /** Tells one of [figures], in its own unit; null where it is no longer known. */
    suspend fun tellFigure(figureId: String, value: Double?): Outcome<Changes>

    /** Whether every reserve holds for so many nights without services, and what to see to before. */
    suspend fun stay(nights: Long): Outcome<StayPage>

    /** Every question of numbers that this vehicle can be asked. */
    suspend fun reckonings(): Outcome<List<ReckoningRow>>

    /** The answer to one of [reckonings], asked with [picks] of its choices. */
    suspend fun reckon(reckoningId: String, picks: List<Pick>): Outcome<Reckoning>

    /** The level as it is known now, to be felt without end; it asks no database, and is to be closed. */
    suspend fun level(): Outcome<LevelLive>

    /** Keeps how the phone lies as level; null forgets it. */
    suspend fun setLevel(rest: LevelRest?): Outcome<Changes>

    /** How quantities are written on every page: `metric` or `imperial`. */
    suspend fun units(): Outcome<String>

    suspend fun setUnits(units: String): Outcome<Changes>

    /** Everything that the vehicle can show red: what shows and is not as it should be first. */
    suspend fun alerts(): Outcome<List<AlertRow>>

    /** What one of [alerts] means now, and what to do. */
    suspend fun alert(alertId: String): Outcome<AlertPage>

    /** Every fitting, in walking order; each has a card. */
    suspend fun cards(): Outcome<List<CardRow>>

    /** How to use one of [cards]. A step belongs to the fitting that its id begins with. */
    suspend fun card(fittingId: String): Outcome<CardPage>

    /** The pages that an owner's own words may mean, the likeliest first; whatever was typed. */
    suspend fun find(asked: String): Outcome<List<HitRow>>

    /** The photo of one of [cards], as the bytes of its file; null where there is none. */
    suspend fun photo(fittingId: String): Outcome<ByteArray?>

    /** How small a picture is to be made for [setPhoto]. */
    suspend fun photoLimits(): Outcome<PhotoLimits>

    suspend fun setPhoto(fittingId: String, image: ByteArray): Outcome<Changes>

    suspend fun removePhoto(fittingId: String): Outcome<Changes>

    /** How long before something runs out the first page says so. */
    suspend fun remindChoices(): Outcome<List<RemindChoice>>

    suspend fun setRemindH(hours: Long): Outcome<Changes>

    /** Whether a move or look may be taken now, with every reason against it and all cautions. */
    suspend fun may(stepId: String): Outcome<MayPage>

    /** Everything that may not work in the vehicle. */
    suspend fun faults(): Outcome<List<FaultRow>>

    /** The search for the cause of one of [faults]; it begins with the first answer. */
    suspend fun fault(faultId: String): Outcome<FaultPage>

    /** Answers what is asked, or of a cause whether it was mended. */
    suspend fun answerFault(faultId: String, asked: String, answer: String): Outcome<Changes>

    /** Takes back what was said last in a search. */
    suspend fun undoFault(faultId: String): Outcome<Changes>

    /** Begins a search anew. */
    suspend fun restartFault(faultId: String): Outcome<Changes>

    suspend fun log(limit: Int): Outcome<List<DoneRow>>

    /** Every move and look of the vehicle, in walking order. */
    suspend fun steps(): Outcome<List<ActionRow>>

    /** Everything that can be reported, in walking order, and what is believed of it. */
    suspend fun things(): Outcome<List<ThingRow>>

    /** The way to a target from where everything stands, shared out between two people. */
    suspend fun shared(targetId: String): Outcome<SharedPage>

    suspend fun places(): Outcome<List<PlaceRow>>

    suspend fun arriveAt(placeId: String): Outcome<Changes>

    suspend fun arriveAtFile(placeToml: String, fileName: String): Outcome<Changes>

    /** Somewhere that nothing is known of. */
    suspend fun arrive(): Outcome<Changes>

    suspend fun driveOff(): Outcome<Changes>

    /** How high, wide, long and heavy the vehicle is, and its tyre pressures, as far as its pack says. */
    suspend fun driveCard(): Outcome<DriveCardPage>

    /** Every rule of every country and carrier; of those that were told first. */
    suspend fun rules(): Outcome<List<RuleRow>>

    suspend fun tellCountry(code: String): Outcome<Changes>

    suspend fun tellCarrier(sort: String): Outcome<Changes>

    /** Everything on this phone, as the text of one file. */
    suspend fun exportText(): Outcome<String>

    /** Adds what such a file holds to what is here; the warnings tell of each vehicle what became of it. */
    suspend fun importText(text: String, fileName: String): Outcome<Changes>
}
