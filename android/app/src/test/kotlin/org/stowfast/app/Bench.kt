package org.stowfast.app

import androidx.test.core.app.ApplicationProvider
import kotlinx.coroutines.Dispatchers
import kotlinx.coroutines.runBlocking
import org.stowfast.engine.Moment
import org.stowfast.engine.Outcome
import org.stowfast.engine.RustVehicleEngine
import org.stowfast.engine.VehicleEngine
import java.io.File
import java.nio.file.Files
import java.nio.file.Path

/** A real engine on a real file, with a clock that the test moves. */
class Bench(
    private val database: File = File(Files.createTempDirectory("stowfast").toFile(), "trip.db"),
    private val device: String = "",
    nowMs: Long = 1_790_000_000_000L,
) {
    var nowMs = nowMs
        private set
    private var startedMs = 1_789_000_000_000L
    private var start = 1

    fun engine(): RustVehicleEngine = RustVehicleEngine(
        databasePath = database.path,
        language = "en",
        clock = { Moment(utcMs = nowMs, monotonicMs = nowMs - startedMs, bootId = "$device$start") },
        dispatcher = Dispatchers.Unconfined,
    )

    /** Gives the app an engine on this bench's file, as a fresh process would. */
    fun install(): VehicleEngine = engine().also { ApplicationProvider.getApplicationContext<StowfastApp>().engine = it }

    fun pass(ms: Long) {
        nowMs += ms
    }

    /** Somebody sets the clock; no time passes. */
    fun setClock(byMs: Long) {
        nowMs += byMs
        startedMs += byMs
    }

    /** The phone is turned off, and on again at once. */
    fun restart() {
        startedMs = nowMs
        start += 1
    }

    fun file(): File = database

    /**
     * Damages the file while its backup is sound and the phone is full: the copy that would restore it goes to the
     * device that never has room. Call with no engine open.
     */
    fun damageWithNoRoom() {
        engine().use { it.get { vehicles() } } // A second start makes the backup.
        cut()
        Files.createSymbolicLink(restoring, Path.of("/dev/full"))
    }

    /** Makes room again. */
    fun makeRoom() = Files.delete(restoring)

    /** Leaves half of the file. */
    fun cut() = file().writeBytes(file().readBytes().let { it.copyOf(it.size / 2) })

    private val restoring: Path
        get() = Path.of(database.path + ".restoring")
}

/** The answer of a call that must not fail. */
fun <T> VehicleEngine.get(call: suspend VehicleEngine.() -> Outcome<T>): T = when (val outcome = runBlocking { call() }) {
    is Outcome.Done -> outcome.value
    is Outcome.Failed -> throw AssertionError("failed: ${outcome.problem}")
}

/** A pack that reads, for what the test makes of it. */
val DEMO_PACK: String
    get() = demoData("a/pack.toml")

fun demoData(path: String): String = generateSequence(File("").absoluteFile) { it.parentFile }
    .map { File(it, "demo-data/$path") }
    .first { it.isFile }
    .readText()
