package org.stowfast.app.fridge

import java.time.Instant
import java.time.LocalDateTime
import java.time.ZoneId
import java.time.temporal.ChronoUnit

/** What the clock shows where the phone is. [utcMs]: ms since 1970-01-01 UTC. */
fun shown(utcMs: Long, zone: ZoneId = ZoneId.systemDefault()): LocalDateTime = LocalDateTime.ofInstant(Instant.ofEpochMilli(utcMs), zone)

/**
 * When the clock shows it, in ms since 1970-01-01 UTC: of two times the first; what it leaves out is meant by as much later as
 * it was put on.
 */
fun LocalDateTime.utcMs(zone: ZoneId = ZoneId.systemDefault()): Long = atZone(zone).toInstant().toEpochMilli()

/** The full hour of the clock here at or after [utcMs]: the engine knows no zone, and offers full hours of UTC. */
fun fullHour(utcMs: Long, zone: ZoneId = ZoneId.systemDefault()): Long {
    val at = Instant.ofEpochMilli(utcMs).atZone(zone)
    val hour = at.truncatedTo(ChronoUnit.HOURS)
    return (if (hour < at) hour.plusHours(1) else hour).toInstant().toEpochMilli()
}
