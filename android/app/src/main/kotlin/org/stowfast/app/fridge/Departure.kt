package org.stowfast.app.fridge

import android.content.Context
import androidx.annotation.StringRes
import androidx.compose.foundation.layout.Arrangement
import androidx.compose.foundation.layout.ExperimentalLayoutApi
import androidx.compose.foundation.layout.FlowRow
import androidx.compose.foundation.layout.fillMaxWidth
import androidx.compose.foundation.lazy.LazyListScope
import androidx.compose.foundation.lazy.items
import androidx.compose.foundation.lazy.rememberLazyListState
import androidx.compose.material3.MaterialTheme
import androidx.compose.material3.Text
import androidx.compose.runtime.Composable
import androidx.compose.ui.Modifier
import androidx.compose.ui.platform.LocalContext
import androidx.compose.ui.platform.testTag
import androidx.compose.ui.res.stringResource
import androidx.compose.ui.semantics.LiveRegionMode
import androidx.compose.ui.semantics.liveRegion
import androidx.compose.ui.semantics.semantics
import androidx.compose.ui.unit.dp
import org.stowfast.app.R
import org.stowfast.app.share.departure
import org.stowfast.app.ui.Beside
import org.stowfast.app.ui.MainButton
import org.stowfast.app.ui.Page
import org.stowfast.app.ui.Panel
import org.stowfast.app.ui.QuietButton
import org.stowfast.app.ui.SectionHeading
import org.stowfast.app.ui.Ways
import org.stowfast.app.ui.dayAndTime
import org.stowfast.app.ui.dayOf
import org.stowfast.app.ui.timeOfDay
import org.stowfast.app.ui.trouble
import org.stowfast.engine.LeaveRow
import org.stowfast.engine.Problem
import java.time.LocalDateTime

/** One tap's way to another day or time. */
private class Shift(@StringRes val text: Int, val tag: String, val by: LocalDateTime.() -> LocalDateTime)

private val Days = listOf(
    Shift(R.string.departure_day_back, "day-back") { minusDays(1) },
    Shift(R.string.departure_day_on, "day-on") { plusDays(1) },
)
private val Times = listOf(
    Shift(R.string.fridge_earlier, "hour-back") { minusHours(1) },
    Shift(R.string.fridge_later, "hour-on") { plusHours(1) },
    Shift(R.string.departure_minutes_back, "minutes-back") { minusMinutes(MINUTES) },
    Shift(R.string.departure_minutes_on, "minutes-on") { plusMinutes(MINUTES) },
)
private const val MINUTES = 5L

/** When they leave: a day and a time by the clock here, as [at], or one of those that [row] offers. */
@Composable
fun Departure(row: LeaveRow, at: LocalDateTime, problem: Problem?, ways: Ways, onEvent: (FridgeEvent) -> Unit) {
    val context = LocalContext.current
    val utcMs = at.utcMs()
    Page(
        stringResource(R.string.fridge_leave_choose),
        ways.copy(back = { onEvent(FridgeEvent.Pick(null)) }),
        trouble(problem) { onEvent(FridgeEvent.Dismiss) },
        bottom = { MainButton(stringResource(R.string.departure_go, context.dayAndTime(utcMs)), { onEvent(FridgeEvent.Leave(utcMs)) }, Modifier.testTag("leave-picked"), R.drawable.ic_van) },
        told = { departure(utcMs) },
        beside = Beside(rememberLazyListState()) { offered(row, context, onEvent) },
    ) {
        item { Shifts(R.string.departure_day, context.dayOf(utcMs), Days, at, onEvent) }
        item { Shifts(R.string.departure_time, context.timeOfDay(utcMs), Times, at, onEvent) }
    }
}

@OptIn(ExperimentalLayoutApi::class)
@Composable
private fun Shifts(@StringRes title: Int, value: String, shifts: List<Shift>, at: LocalDateTime, onEvent: (FridgeEvent) -> Unit) = Panel {
    Text(stringResource(title), style = MaterialTheme.typography.labelMedium)
    Text(value, Modifier.semantics { liveRegion = LiveRegionMode.Polite }, style = MaterialTheme.typography.titleLarge)
    FlowRow(horizontalArrangement = Arrangement.spacedBy(8.dp), verticalArrangement = Arrangement.spacedBy(8.dp), maxItemsInEachRow = 2) {
        for (shift in shifts) {
            QuietButton(stringResource(shift.text), { onEvent(FridgeEvent.Pick(shift.by(at))) }, Modifier.weight(1f).testTag(shift.tag))
        }
    }
}

private fun LazyListScope.offered(row: LeaveRow, context: Context, onEvent: (FridgeEvent) -> Unit) {
    item { SectionHeading(stringResource(R.string.departure_offered)) }
    items(row.choicesUtcMs.map { fullHour(it) }) { choice ->
        QuietButton(context.dayAndTime(choice), { onEvent(FridgeEvent.Leave(choice)) }, Modifier.fillMaxWidth().testTag("leave-$choice"))
    }
    if (row.chosenUtcMs != null) {
        item { QuietButton(stringResource(R.string.fridge_leave_none), { onEvent(FridgeEvent.Leave(null)) }, Modifier.fillMaxWidth().testTag("leave-none"), R.drawable.ic_none) }
    }
}
