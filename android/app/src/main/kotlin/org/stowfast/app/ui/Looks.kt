package org.stowfast.app.ui

import android.content.Context
import android.text.format.DateFormat
import android.text.format.DateUtils
import androidx.annotation.DrawableRes
import androidx.annotation.StringRes
import androidx.compose.runtime.Composable
import org.stowfast.app.R
import org.stowfast.engine.AlertRow
import org.stowfast.engine.FridgeSource
import org.stowfast.engine.GaugeUnit
import org.stowfast.engine.NowPage
import org.stowfast.engine.Says
import org.stowfast.engine.Severity
import org.stowfast.engine.Shown
import org.stowfast.engine.VerdictKind
import java.util.Date
import kotlin.time.Duration.Companion.milliseconds

/** How a meaning is drawn: a shape and a word. */
data class Look(@DrawableRes val mark: Int, @StringRes val word: Int)

/** A shape and its colours; the engine has the words. */
data class VerdictLook(@DrawableRes val mark: Int, val tone: Tone)

@Composable
fun VerdictKind.look(): VerdictLook = when (this) {
    VerdictKind.CLEAR -> VerdictLook(R.drawable.mark_clear, roles.clear)
    VerdictKind.BLOCKED -> VerdictLook(R.drawable.mark_blocked, roles.blocked)
    VerdictKind.UNKNOWN -> VerdictLook(R.drawable.mark_unknown, roles.unknown)
}

/** On the road there is nothing to be ready for: then it only matters whether something is wrong. */
@Composable
fun NowPage.look(): VerdictLook =
    if (moving && items.isEmpty()) VerdictLook(R.drawable.ic_van, roles.quiet) else verdict.look()

/** What shows and is as it should be must not look like a fault. */
@Composable
fun AlertRow.look(): VerdictLook = when (shown) {
    Shown.YES -> if (normal) VerdictLook(R.drawable.mark_clear, roles.quiet) else VerdictKind.BLOCKED.look()
    Shown.UNKNOWN -> VerdictKind.UNKNOWN.look()
    Shown.NO -> VerdictLook(R.drawable.ic_lamp_off, roles.quiet)
}

/** It shows, and something is wrong. */
fun AlertRow.showsNow(): Boolean = shown == Shown.YES && !normal

@StringRes
fun AlertRow.word(): Int = when (shown) {
    Shown.YES -> if (normal) R.string.red_normal else R.string.red_shows
    Shown.UNKNOWN -> R.string.red_may
    Shown.NO -> R.string.red_not
}

/** What a country or carrier says. */
@Composable
fun Says.mark(): VerdictLook = when (this) {
    Says.ALLOWED -> VerdictLook(R.drawable.mark_clear, roles.clear)
    Says.ASK -> VerdictLook(R.drawable.mark_unknown, roles.unknown)
    Says.FORBIDDEN -> VerdictLook(R.drawable.mark_blocked, roles.blocked)
}

fun Severity.look(): Look = when (this) {
    Severity.DANGER -> Look(R.drawable.ic_danger, R.string.severity_danger)
    Severity.DAMAGE -> Look(R.drawable.ic_damage, R.string.severity_damage)
    Severity.NUISANCE -> Look(R.drawable.ic_nuisance, R.string.severity_nuisance)
}

fun FridgeSource.look(): Look = when (this) {
    FridgeSource.MAINS -> Look(R.drawable.ic_plug, R.string.fridge_mains)
    FridgeSource.DC -> Look(R.drawable.ic_battery, R.string.fridge_dc)
    FridgeSource.GAS -> Look(R.drawable.ic_flame, R.string.fridge_gas)
    FridgeSource.NONE -> Look(R.drawable.ic_none, R.string.fridge_nothing)
    FridgeSource.UNKNOWN -> Look(R.drawable.ic_question, R.string.fridge_unknown)
}

@StringRes
fun GaugeUnit.word(): Int = when (this) {
    GaugeUnit.LAMPS -> R.string.unit_lamps
    GaugeUnit.PERCENT -> R.string.unit_percent
    GaugeUnit.LITRES -> R.string.unit_litres
    GaugeUnit.VOLTS -> R.string.unit_volts
    GaugeUnit.KILOGRAMS -> R.string.unit_kilograms
    GaugeUnit.WORDS -> R.string.unit_words
}

/** Time left until [deadlineUtcMs], in words that no clock shows, or null where it has passed. */
fun Context.countdown(deadlineUtcMs: Long, nowUtcMs: Long): String? =
    (deadlineUtcMs - nowUtcMs).takeIf { it > 0 }?.milliseconds?.toComponents { minutes, seconds, _ ->
        getString(R.string.fridge_in, minutes, seconds)
    }

/** A time of the day as the phone writes it. */
fun Context.timeOfDay(utcMs: Long): String = DateFormat.getTimeFormat(this).format(Date(utcMs))

private const val DAY = DateUtils.FORMAT_SHOW_WEEKDAY or DateUtils.FORMAT_SHOW_DATE or DateUtils.FORMAT_NO_YEAR

/** A day with its date, as the phone writes them. */
fun Context.dayOf(utcMs: Long): String = DateUtils.formatDateTime(this, utcMs, DAY)

/** A time of the day with its day, in short, as the phone writes them. */
fun Context.dayAndTime(utcMs: Long): String = DateUtils.formatDateTime(this, utcMs, DAY or DateUtils.FORMAT_SHOW_TIME or DateUtils.FORMAT_ABBREV_ALL)

/** A day with its year, as the phone writes it. */
fun Context.day(utcMs: Long): String = DateUtils.formatDateTime(this, utcMs, DateUtils.FORMAT_SHOW_DATE or DateUtils.FORMAT_SHOW_YEAR)
