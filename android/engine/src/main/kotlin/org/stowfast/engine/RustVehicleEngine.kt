package org.stowfast.engine

import kotlinx.coroutines.CoroutineDispatcher
import kotlinx.coroutines.Dispatchers
import kotlinx.coroutines.flow.MutableSharedFlow
import kotlinx.coroutines.flow.SharedFlow
import kotlinx.coroutines.withContext
import org.stowfast.ffi.Engine
import org.stowfast.ffi.EngineException
import org.stowfast.ffi.InternalException

/**
 * The Rust core behind the fence. The library is loaded and the database opened by the first call, off the
 * main thread; where that fails the call says why, and the next call tries again.
 */
class RustVehicleEngine(
    private val databasePath: String,
    private val language: String,
    private val clock: () -> Moment,
    private val dispatcher: CoroutineDispatcher = Dispatchers.IO.limitedParallelism(1),
) : VehicleEngine {
    private val written = MutableSharedFlow<Changes>(extraBufferCapacity = 64)
    private var opened: Engine? = null

    override val changes: SharedFlow<Changes> = written

    override fun utcMs(): Long = clock().utcMs

    override suspend fun notices() = ask { notices() }

    override suspend fun demos() = ask { demos() }

    override suspend fun vehicles() = ask { vehicles() }

    override suspend fun addDemo(id: String) = command({ NOTHING }) { addDemo(id, clock()) }

    override suspend fun addPack(packToml: String, fileName: String) =
        command({ NOTHING }) { addPack(packToml, fileName, clock()) }

    override suspend fun replacePack(vehicleId: Long, packToml: String, fileName: String) =
        command { replacePack(vehicleId, packToml, fileName, clock()) }

    override suspend fun chooseVehicle(id: Long) = command({ NOTHING }) { chooseVehicle(id) }

    override suspend fun targets() = ask { targets() }

    override suspend fun nowPage() = ask { nowPage(clock()) }

    override suspend fun openRun(targetId: String) = command { openRun(targetId, clock()) }

    override suspend fun routine() = ask { routine(clock()) }

    override suspend fun preview(targetId: String) = ask { preview(targetId, clock()) }

    override suspend fun refusals(stepId: String) = ask { refusals(stepId, clock()) }

    override suspend fun confirm(lines: List<Line>) = command { confirm(lines, clock()) }

    override suspend fun tick(stepId: String) = command { tick(stepId, clock()) }

    override suspend fun look(stepId: String, choiceId: String) = command { look(stepId, choiceId, clock()) }

    override suspend fun unmark(entry: Long) = command { unmark(entry, clock()) }

    override suspend fun takeBack(entries: List<Long>) = command { takeBack(entries, clock()) }

    override suspend fun cannot(stepId: String, note: String) = command { cannot(stepId, note, clock()) }

    override suspend fun leftAnyway(stepId: String, note: String) = command { leftAnyway(stepId, note, clock()) }

    override suspend fun clearStuck(entry: Long) = command { clearStuck(entry, clock()) }

    override suspend fun note(note: String) = command { note(note, clock()) }

    override suspend fun pause() = command { pause(clock()) }

    override suspend fun resume() = command { resume(clock()) }

    override suspend fun closeRun() = command { closeRun(clock()) }

    override suspend fun report(variable: String, setting: String) = command { report(variable, setting, clock()) }

    override suspend fun fridge() = ask { fridge(clock()) }

    override suspend fun fridgeFor(leaveUtcMs: Long) = ask { fridgeFor(leaveUtcMs, clock()) }

    override suspend fun setFridge(selector: String) = command { setFridge(selector, clock()) }

    override suspend fun gauges() = ask { gauges(clock()) }

    override suspend fun enterReading(gaugeId: String, unit: GaugeUnit, value: Double) =
        command { enterReading(gaugeId, unit, value, clock()) }

    override suspend fun reserves() = ask { reserves(clock()) }

    override suspend fun figures() = ask { figures(clock()) }

    override suspend fun tellFigure(figureId: String, value: Double?) = command { tellFigure(figureId, value, clock()) }

    override suspend fun stay(nights: Long) = ask { stay(nights, clock()) }

    override suspend fun reckonings() = ask { reckonings() }

    override suspend fun reckon(reckoningId: String, picks: List<Pick>) = ask { reckon(reckoningId, picks, clock()) }

    override suspend fun level() = ask { level(clock()) }

    override suspend fun setLevel(rest: LevelRest?) = command { setLevel(rest, clock()) }

    override suspend fun units() = ask { units() }

    override suspend fun setUnits(units: String) = command { setUnits(units) }

    override suspend fun alerts() = ask { alerts(clock()) }

    override suspend fun alert(alertId: String) = ask { alert(alertId, clock()) }

    override suspend fun cards() = ask { cards() }

    override suspend fun card(fittingId: String) = ask { card(fittingId, clock()) }

    // Words to look for may be cut in two: a search never fails.
    override suspend fun find(asked: String) = asked.encodeToByteArray().decodeToString().let { words -> ask { find(words) } }

    override suspend fun photo(fittingId: String) = ask { photo(fittingId) }

    override suspend fun photoLimits() = ask { photoLimits() }

    override suspend fun setPhoto(fittingId: String, image: ByteArray) = command { setPhoto(fittingId, image, clock()) }

    override suspend fun removePhoto(fittingId: String) = command { removePhoto(fittingId) }

    override suspend fun remindChoices() = ask { remindChoices() }

    override suspend fun setRemindH(hours: Long) = command { setRemindH(hours) }

    override suspend fun may(stepId: String) = ask { may(stepId, clock()) }

    override suspend fun faults() = ask { faults(clock()) }

    override suspend fun fault(faultId: String) = ask { fault(faultId, clock()) }

    override suspend fun answerFault(faultId: String, asked: String, answer: String) =
        command { answerFault(faultId, asked, answer, clock()) }

    override suspend fun undoFault(faultId: String) = command { undoFault(faultId, clock()) }

    override suspend fun restartFault(faultId: String) = command { restartFault(faultId, clock()) }

    override suspend fun log(limit: Int) = ask { log(limit) }

    override suspend fun steps() = ask { steps() }

    override suspend fun things() = ask { things(clock()) }

    override suspend fun shared(targetId: String) = ask { shared(targetId, clock()) }

    override suspend fun places() = ask { places() }

    override suspend fun arriveAt(placeId: String) = command { arriveAt(placeId, clock()) }

    override suspend fun arriveAtFile(placeToml: String, fileName: String) =
        command { arriveAtFile(placeToml, fileName, clock()) }

    override suspend fun arrive() = command { arrive(clock()) }

    override suspend fun driveOff() = command { driveOff(clock()) }

    override suspend fun driveCard() = ask { driveCard() }

    override suspend fun rules() = ask { rules(clock()) }

    override suspend fun tellCountry(code: String) = command { tellCountry(code, clock()) }

    override suspend fun tellCarrier(sort: String) = command { tellCarrier(sort, clock()) }

    override suspend fun exportText() = ask { exportText() }

    override suspend fun importText(text: String, fileName: String) = command { importText(text, fileName, clock()) }

    override fun close() {
        opened?.close()
        opened = null
    }

    private suspend fun command(call: Engine.() -> Changes): Outcome<Changes> = command({ it }, call)

    private suspend fun <T> command(changed: (T) -> Changes, call: Engine.() -> T): Outcome<T> =
        ask(call).also { if (it is Outcome.Done) written.emit(changed(it.value)) }

    private suspend fun <T> ask(call: Engine.() -> T): Outcome<T> = withContext(dispatcher) {
        try {
            val engine = opened ?: Engine(databasePath, language, clock()).also { opened = it }
            Outcome.Done(engine.call())
        } catch (problem: EngineException) {
            Outcome.Failed(problem.asProblem())
        } catch (_: CharacterCodingException) {
            // The generated code throws this for half a surrogate pair in any text, before anything crosses.
            Outcome.Failed(Problem.HalfLetter)
        } catch (fault: InternalException) {
            Outcome.Failed(Problem.Internal(fault.toString()))
        } catch (fault: LinkageError) {
            Outcome.Failed(Problem.Internal(fault.toString()))
        }
    }

    private companion object {
        val NOTHING = Changes(entries = emptyList(), warnings = emptyList())
    }
}

private fun EngineException.asProblem(): Problem = when (this) {
    is EngineException.InvalidInput -> Problem.InvalidInput(field, detail)
    is EngineException.NotFound -> Problem.NotFound(kind, id)
    is EngineException.Conflict -> Problem.Conflict(detail)
    is EngineException.BrokenPack -> Problem.BrokenPack(file, line, expected)
    is EngineException.StorageFull -> Problem.StorageFull
    is EngineException.StorageDamaged -> Problem.StorageDamaged(keptPath)
    is EngineException.NewerDatabase -> Problem.NewerDatabase(found, supported)
    is EngineException.Internal -> Problem.Internal(detail)
}
