package org.stowfast.app.wait

import org.stowfast.engine.Changes
import org.stowfast.engine.GaugeUnit
import org.stowfast.engine.NowPage
import org.stowfast.engine.Outcome
import org.stowfast.engine.VehicleEngine

/** The engine, with every page of the routine told to [waits] and every first page to [reminders], whoever reads it. */
class WaitingEngine(private val engine: VehicleEngine, private val waits: Waits, private val reminders: Reminders) : VehicleEngine by engine {
    override suspend fun routine() = engine.routine().also { if (it is Outcome.Done) waits.follow(it.value) }

    override suspend fun closeRun() = engine.closeRun().ended()

    override suspend fun driveOff() = engine.driveOff().ended()

    override suspend fun nowPage() = engine.nowPage().also { if (it is Outcome.Done) reminders.follow(it.value, utcMs()) }

    /** A reading may bring the next reminder nearer, and whoever enters it need not come by the first page. */
    override suspend fun enterReading(gaugeId: String, unit: GaugeUnit, value: Double) = engine.enterReading(gaugeId, unit, value).also { nowPage() }

    /** The first page for the phone itself: nobody reads it. */
    suspend fun nowPageUnseen(): Outcome<NowPage> = engine.nowPage()

    private fun Outcome<Changes>.ended() = also { if (it is Outcome.Done) waits.follow(null) }
}
