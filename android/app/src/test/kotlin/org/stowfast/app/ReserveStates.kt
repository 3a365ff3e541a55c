package org.stowfast.app

import androidx.compose.runtime.Composable
import org.stowfast.app.reserve.ReserveScreen
import org.stowfast.app.reserve.ReserveState
import org.stowfast.app.settings.SettingsScreen
import org.stowfast.app.settings.SettingsState
import org.stowfast.app.theme.Brightness
import org.stowfast.app.theme.Contrast
import org.stowfast.app.theme.ThemeChoice
import org.stowfast.app.theme.ThemeState
import org.stowfast.app.ui.Ways
import org.stowfast.engine.Problem
import org.stowfast.engine.ReservePage
import org.stowfast.engine.ReserveRow

/** What is left, and what is set for all vehicles. All words are invented. */
object ReserveStates {
    fun screens(ways: Ways): Map<String, @Composable () -> Unit> = mapOf(
        "reserves" to { reserves(ReserveState(page, problem = null), ways) },
        "reserves-none" to { reserves(ReserveState(page.copy(rows = emptyList()), problem = null), ways) },
        "reserves-wait" to { reserves(ReserveState(page = null, problem = null), ways) },
        "reserves-failed" to { reserves(ReserveState(page = null, Problem.Internal("disk I/O error")), ways) },
        "settings" to { settings("metric", ThemeState(Brightness.SYSTEM, Contrast.SYSTEM), ways) },
        "settings-chosen" to { settings("imperial", ThemeState(Brightness.DARK, Contrast.HIGH), ways) },
        "settings-wait" to { settings(units = null, ThemeState(Brightness.SYSTEM, Contrast.SYSTEM), ways) },
    )

    @Composable
    private fun reserves(state: ReserveState, ways: Ways) = ReserveScreen(state, ways, {}) {}

    @Composable
    private fun settings(units: String?, look: ThemeState, ways: Ways) =
        SettingsScreen(SettingsState(units, problem = null), ways, {}, {}) { ThemeChoice(look) {} }

    private val fresh = ReserveRow(
        id = "fresh", title = "Fresh tank", endText = "empty", seenText = "2 lit", seenAgeText = "2 h ago", seenCounts = true, seenNote = null,
        levelText = "Above the travel fill", levelAgeText = "2 h ago", betweenText = "between 31 and 68 litres",
        usedText = "about 8 to 21 litres a day", leftText = "about 2 to 8 days", missing = emptyList(),
        usedLowerPerDay = 8_000, usedUpperPerDay = 21_000, leftLowerH = 50, leftUpperH = 190, first = true,
    )

    private val page = ReservePage(
        "Which comes first cannot be told: Fresh tank empty, about 2 to 8 days; Waste tank full, at least 1 day. Their ranges overlap. Nothing is known yet of: Leisure battery.",
        "Gas in 2 cylinders together, as last told: between 17.8 and 19.5 kg.",
        listOf(
            fresh,
            fresh.copy(
                id = "waste", title = "Waste tank", endText = "full", seenText = "none lit", seenCounts = false,
                seenNote = "The reading is noted but does not count: the vehicle does not stand level",
                levelText = "Part full", leftText = "at least 1 day", usedText = "at most 30 litres a day", betweenText = "between 0 and 76 litres",
            ),
            fresh.copy(
                id = "gas", title = "Gas in the left cylinder", seenText = "20.4 kg", levelText = "Part full", betweenText = "between 7.5 and 8.5 kg",
                usedText = "about 2 to 3.5 kg a day", leftText = "about 1 to 4 days", usedLowerPerDay = 2_000, usedUpperPerDay = 3_500, first = false,
            ),
            fresh.copy(
                id = "battery", title = "Leisure battery", seenText = null, seenAgeText = null, levelText = "Not known", levelAgeText = null, betweenText = null,
                usedText = null, leftText = null, missing = listOf("Nothing was read yet. Read it now, and again in a day."), first = false,
            ),
        ),
        "A plain average of what was read, from one filling to the next. Guests, heat or a cloudy week change it.",
    )
}
