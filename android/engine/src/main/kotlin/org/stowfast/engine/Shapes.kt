package org.stowfast.engine

// The generated shapes under the fence's own name: the app imports these and never the generated package.

typealias Changes = org.stowfast.ffi.Changes
typealias ChoiceRow = org.stowfast.ffi.ChoiceRow
typealias DemoRow = org.stowfast.ffi.DemoRow
typealias DoneRow = org.stowfast.ffi.DoneRow
typealias EmergencyRow = org.stowfast.ffi.EmergencyRow
typealias FridgePage = org.stowfast.ffi.FridgePage
typealias FridgeSource = org.stowfast.ffi.FridgeSource
typealias GaugeChoice = org.stowfast.ffi.GaugeChoice
typealias GaugeRow = org.stowfast.ffi.GaugeRow
typealias GaugeUnit = org.stowfast.ffi.GaugeUnit
typealias ItemRow = org.stowfast.ffi.ItemRow
typealias Moment = org.stowfast.ffi.Moment
typealias Line = org.stowfast.ffi.Line
typealias NowPage = org.stowfast.ffi.NowPage
typealias OrderExact = org.stowfast.ffi.OrderProof.Exact
typealias OrderGap = org.stowfast.ffi.OrderProof.Gap
typealias OrderNone = org.stowfast.ffi.OrderProof.None
typealias OrderProof = org.stowfast.ffi.OrderProof
typealias QuestionRow = org.stowfast.ffi.QuestionRow
typealias RoutinePage = org.stowfast.ffi.RoutinePage
typealias RunRow = org.stowfast.ffi.RunRow
typealias Severity = org.stowfast.ffi.Severity
typealias StepKind = org.stowfast.ffi.StepKind
typealias StepRow = org.stowfast.ffi.StepRow
typealias TargetRow = org.stowfast.ffi.TargetRow
typealias VehicleRow = org.stowfast.ffi.VehicleRow
typealias VerdictKind = org.stowfast.ffi.VerdictKind

/**
 * The first of [steps] that is about this item, or null where none is. Both come from one page of the engine, which
 * names a fitting's thing in one way: in an item's title, and before the colon of what a step is to show. A step that
 * shows something else too gives the item's reason.
 */
fun ItemRow.stepIn(steps: List<StepRow>): StepRow? {
    val fitting = variable.substringBefore('.')
    val own = steps.filter { it.id.substringBefore('.') == fitting }
    return own.firstOrNull { it.wanted.startsWith("$title: ") } ?: own.firstOrNull { it.why.any(reason::contains) }
}
