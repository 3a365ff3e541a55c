package org.stowfast.app

import androidx.compose.runtime.Composable
import org.stowfast.app.level.LevelScreen
import org.stowfast.app.level.LevelState
import org.stowfast.app.ui.Ways
import org.stowfast.engine.LevelPage
import org.stowfast.engine.LevelRest
import org.stowfast.engine.Problem

/** The level as the phone feels it: each state is what the real engine makes of these looks. Unit: m/s². */
object LevelStates {
    fun screens(ways: Ways): Map<String, @Composable () -> Unit> = mapOf(
        "level" to { screen(felt(scene, LEANING), ways) },
        "level-enough" to { screen(felt(scene, STRAIGHT), ways) },
        "level-unset" to { screen(felt(unset, STRAIGHT), ways) },
        "level-fridge" to { screen(felt(unset, STEEP), ways) },
        "level-held" to { LevelScreen(LevelState(felt(scene, LEANING), sensor = true, held = true, problem = null), ways, {}) {} },
        "level-shaken" to { screen(felt(scene, LEANING, SHAKEN), ways) },
        "level-down" to { screen(felt(scene, DOWN), ways) },
        "level-bare" to { screen(felt(bare, LEANING), ways) },
        "level-refused" to {
            val problem = scene.problem { setLevel(LevelRest(20.0, 90.0)) }
            LevelScreen(LevelState(felt(scene, STRAIGHT), sensor = true, held = false, problem), ways, {}) {}
        },
        "level-none" to { LevelScreen(LevelState(page = null, sensor = false, held = false, problem = null), ways, {}) {} },
        "level-wait" to { screen(page = null, ways) },
        "level-failed" to { LevelScreen(LevelState(page = null, sensor = true, held = false, Problem.Internal("disk I/O error")), ways, {}) {} },
    )

    private val LEANING = listOf(0.12, 0.27, 9.8)
    private val STRAIGHT = listOf(0.05, -0.05, 9.8)
    private val STEEP = listOf(-0.5, -0.85, 9.77)
    private val SHAKEN = listOf(2.5, 0.3, 9.1)
    private val DOWN = listOf(0.1, 0.2, -9.8)

    private val unset = Scene("c")
    private val bare = Scene("b")
    private val scene = Scene("c") {
        for ((figure, value) in mapOf("ramps_count" to 2.0, "ramp_low_mm" to 40.0, "ramp_middle_mm" to 80.0)) get { tellFigure(figure, value) }
        val rest = felt(this, STRAIGHT).rest
        get { setLevel(rest) }
        pass(3 * Scene.HOUR_MS)
    }

    /** What is shown after these looks. */
    private fun felt(scene: Scene, vararg looks: List<Double>): LevelPage =
        scene.get { level() }.use { live -> looks.map { (x, y, z) -> live.feel(x, y, z) }.last() }

    @Composable
    private fun screen(page: LevelPage?, ways: Ways) =
        LevelScreen(LevelState(page, sensor = true, held = false, problem = null), ways, {}) {}
}
