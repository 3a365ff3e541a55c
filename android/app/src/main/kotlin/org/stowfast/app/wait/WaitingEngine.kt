package org.stowfast.app.wait

import org.stowfast.engine.Changes
import org.stowfast.engine.Outcome
import org.stowfast.engine.VehicleEngine

/** The engine, with every page of the routine told to [waits], whoever reads it. */
class WaitingEngine(private val engine: VehicleEngine, private val waits: Waits) : VehicleEngine by engine {
    override suspend fun routine() = engine.routine().also { if (it is Outcome.Done) waits.follow(it.value) }

    override suspend fun closeRun() = engine.closeRun().ended()

    override suspend fun driveOff() = engine.driveOff().ended()

    private fun Outcome<Changes>.ended() = also { if (it is Outcome.Done) waits.follow(null) }
}
