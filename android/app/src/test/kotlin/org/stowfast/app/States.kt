package org.stowfast.app

import androidx.compose.runtime.Composable
import org.stowfast.app.life.LifeScreen
import org.stowfast.app.ui.Ways
import org.stowfast.engine.Problem

/**
 * Every state that a screen can be in, once: for pictures and for the accessibility check. What stands on a page comes from
 * the real engine, which was brought there ([Scene]); only what the app itself adds is put beside it here.
 */
object States {
    /** One of each kind. */
    private val problems: Map<String, Problem>
        get() = mapOf(
            "input" to Problem.InvalidInput("battery", "8 to 16 volts"),
            "not-found" to Problem.NotFound("entry", "12"),
            "conflict" to Problem.Conflict("no routine is under way"),
            "pack" to Problem.BrokenPack("van.toml", 0, "text in UTF-8"),
            "half-letter" to Problem.HalfLetter,
            "full" to Problem.StorageFull,
            "damaged" to Problem.StorageDamaged("/data/user/0/org.stowfast.app/databases/stowfast.db"),
            "newer" to Problem.NewerDatabase(7, 3),
            "internal" to Problem.Internal("disk I/O error"),
        )
    private val deeper = Ways(back = {}, emergency = {})

    val all: Map<String, @Composable () -> Unit> =
        TripStates.screens(deeper) + NowStates.screens(deeper) + RoutineStates.screens(deeper) + FridgeStates.screens(deeper) +
            RedStates.screens(deeper) + FaultStates.screens(deeper) + ReserveStates.screens(deeper) + StayStates.screens(deeper) + ReckonStates.screens(deeper) + AnswerStates.screens(deeper) + LevelStates.screens(deeper) + CardStates.screens(deeper) + MayStates.screens(deeper) +
            ("emergency" to { LifeScreen(Ways(back = {}, emergency = null)) }) + SystemStates.all +
            problems.map { (name, problem) -> "problem-$name" to NowStates.failed(problem) }

    /**
     * A state is named after its screen, up to the first dash. The first state of a screen stands for it in dark, large
     * letters, high contrast, on its side and on a tablet.
     */
    val pages: List<String> = all.keys.map { it.substringBefore('-') }.distinct()

    fun of(page: String): Map<String, @Composable () -> Unit> = all.filterKeys { it.substringBefore('-') == page }
}
