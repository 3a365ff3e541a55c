package org.stowfast.app.reading

import org.stowfast.engine.GaugeRow
import org.stowfast.engine.Problem

/** [gauges] is null until the engine has answered. [open] is the gauge that is being read. */
data class ReadingState(val gauges: List<GaugeRow>?, val open: String?, val problem: Problem?)
