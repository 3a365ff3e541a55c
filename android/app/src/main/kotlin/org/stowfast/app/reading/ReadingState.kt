package org.stowfast.app.reading

import org.stowfast.engine.GaugeRow
import org.stowfast.engine.Problem

/**
 * [gauges] is null until the engine has answered. [asked] is the gauge that the page was opened for: it comes first.
 * [open] is the gauge that is being read.
 */
data class ReadingState(val gauges: List<GaugeRow>?, val asked: String?, val open: String?, val problem: Problem?)
