package org.stowfast.engine

// The generated shapes under the fence's own name: the app imports these and never the generated package.

typealias ActionRow = org.stowfast.ffi.ActionRow
typealias AgainstRow = org.stowfast.ffi.AgainstRow
typealias AlertPage = org.stowfast.ffi.AlertPage
typealias AlertRow = org.stowfast.ffi.AlertRow
typealias AnswerRow = org.stowfast.ffi.AnswerRow
typealias CardPage = org.stowfast.ffi.CardPage
typealias CardPhoto = org.stowfast.ffi.CardPhoto
typealias CardRow = org.stowfast.ffi.CardRow
typealias CauseRow = org.stowfast.ffi.CauseRow
typealias Changes = org.stowfast.ffi.Changes
typealias Chart = org.stowfast.ffi.Chart
typealias ChartPoint = org.stowfast.ffi.ChartPoint
typealias CheckRow = org.stowfast.ffi.CheckRow
typealias Choice = org.stowfast.ffi.Choice
typealias ChoiceOption = org.stowfast.ffi.ChoiceOption
typealias ChoiceRow = org.stowfast.ffi.ChoiceRow
typealias ContraryRow = org.stowfast.ffi.ContraryRow
typealias DemoRow = org.stowfast.ffi.DemoRow
typealias DoneRow = org.stowfast.ffi.DoneRow
typealias DriveCardPage = org.stowfast.ffi.DriveCardPage
typealias DriveCardRow = org.stowfast.ffi.DriveCardRow
typealias EmergencyRow = org.stowfast.ffi.EmergencyRow
typealias FaultPage = org.stowfast.ffi.FaultPage
typealias FaultRow = org.stowfast.ffi.FaultRow
typealias FaultStage = org.stowfast.ffi.FaultStage
typealias FigureRow = org.stowfast.ffi.FigureRow
typealias FridgeAheadRow = org.stowfast.ffi.FridgeAheadRow
typealias FridgePage = org.stowfast.ffi.FridgePage
typealias FridgeSource = org.stowfast.ffi.FridgeSource
typealias GaugeChoice = org.stowfast.ffi.GaugeChoice
typealias GaugeRow = org.stowfast.ffi.GaugeRow
typealias GaugeUnit = org.stowfast.ffi.GaugeUnit
typealias GestureKind = org.stowfast.ffi.GestureKind
typealias GestureRow = org.stowfast.ffi.GestureRow
typealias HitKind = org.stowfast.ffi.HitKind
typealias HitRow = org.stowfast.ffi.HitRow
typealias Holds = org.stowfast.ffi.Holds
typealias ItemRow = org.stowfast.ffi.ItemRow
typealias LeaveRow = org.stowfast.ffi.LeaveRow
typealias LevelLive = org.stowfast.ffi.LevelLive
typealias LevelPage = org.stowfast.ffi.LevelPage
typealias LevelRest = org.stowfast.ffi.LevelRest
typealias LikelyRow = org.stowfast.ffi.LikelyRow
typealias Line = org.stowfast.ffi.Line
typealias LinkRow = org.stowfast.ffi.LinkRow
typealias Mark = org.stowfast.ffi.Mark
typealias MayPage = org.stowfast.ffi.MayPage
typealias MeaningRow = org.stowfast.ffi.MeaningRow
typealias Moment = org.stowfast.ffi.Moment
typealias MoveRow = org.stowfast.ffi.MoveRow
typealias NowPage = org.stowfast.ffi.NowPage
typealias NumberChoice = org.stowfast.ffi.NumberChoice
typealias Odd = org.stowfast.ffi.Odd
typealias OddCannot = org.stowfast.ffi.Odd.Cannot
typealias OddSeen = org.stowfast.ffi.Odd.Seen
typealias OrderExact = org.stowfast.ffi.OrderProof.Exact
typealias OrderGap = org.stowfast.ffi.OrderProof.Gap
typealias OrderNone = org.stowfast.ffi.OrderProof.None
typealias OrderProof = org.stowfast.ffi.OrderProof
typealias PartRow = org.stowfast.ffi.PartRow
typealias PersonRow = org.stowfast.ffi.PersonRow
typealias PhotoLimits = org.stowfast.ffi.PhotoLimits
typealias Pick = org.stowfast.ffi.Pick
typealias PlaceRow = org.stowfast.ffi.PlaceRow
typealias QuestionRow = org.stowfast.ffi.QuestionRow
typealias Reckoning = org.stowfast.ffi.Reckoning
typealias ReckoningGauge = org.stowfast.ffi.ReckoningGauge
typealias ReckoningLine = org.stowfast.ffi.ReckoningLine
typealias ReckoningPart = org.stowfast.ffi.ReckoningPart
typealias ReckoningRow = org.stowfast.ffi.ReckoningRow
typealias RedRow = org.stowfast.ffi.RedRow
typealias RemindChoice = org.stowfast.ffi.RemindChoice
typealias ReminderRow = org.stowfast.ffi.ReminderRow
typealias ReportRow = org.stowfast.ffi.ReportRow
typealias ReservePage = org.stowfast.ffi.ReservePage
typealias ReserveRow = org.stowfast.ffi.ReserveRow
typealias RoutinePage = org.stowfast.ffi.RoutinePage
typealias RuleRow = org.stowfast.ffi.RuleRow
typealias RunRow = org.stowfast.ffi.RunRow
typealias Says = org.stowfast.ffi.Says
typealias SectionRow = org.stowfast.ffi.SectionRow
typealias Severity = org.stowfast.ffi.Severity
typealias SharedPage = org.stowfast.ffi.SharedPage
typealias SharedStepRow = org.stowfast.ffi.SharedStepRow
typealias Seen = org.stowfast.ffi.Seen
typealias Shown = org.stowfast.ffi.Shown
typealias Symbol = org.stowfast.ffi.Symbol
typealias StandsRow = org.stowfast.ffi.StandsRow
typealias StayPage = org.stowfast.ffi.StayPage
typealias StayRow = org.stowfast.ffi.StayRow
typealias StepKind = org.stowfast.ffi.StepKind
typealias StepRow = org.stowfast.ffi.StepRow
typealias StopRow = org.stowfast.ffi.StopRow
typealias StuckRow = org.stowfast.ffi.StuckRow
typealias TargetRow = org.stowfast.ffi.TargetRow
typealias ThingRow = org.stowfast.ffi.ThingRow
typealias TriedRow = org.stowfast.ffi.TriedRow
typealias VariantRow = org.stowfast.ffi.VariantRow
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
