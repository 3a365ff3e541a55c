//! A routine and its steps: the shapes that cross, as in `page.rs`.

use stowfast_core::engine::{
    ChoiceRow, DoneRow, OrderProof, RoutinePage, RunRow, StepKind, StepRow, StopRow, StuckRow,
    VariantRow, VerdictKind,
};

/// Something to do, or something to look at.
#[uniffi::remote(Enum)]
pub enum StepKind {
    /// Changes the vehicle.
    Move,
    /// Finds out.
    Look,
    /// Lets time pass.
    Wait,
}

/// One setting that a look may show.
#[uniffi::remote(Record)]
pub struct ChoiceRow {
    /// Names it to the engine.
    pub id: String,
    /// In words.
    pub text: String,
}

/// One step.
#[uniffi::remote(Record)]
pub struct StepRow {
    /// Names it to the engine.
    pub id: String,
    /// Something to do, or to look at.
    pub kind: StepKind,
    /// What to do.
    pub text: String,
    /// What is to be seen when it is done.
    pub wanted: String,
    /// The usual cautions.
    pub cautions: Vec<String>,
    /// Why it is here, and why now.
    pub why: Vec<String>,
    /// Names the place.
    pub zone_id: String,
    /// The place, in words.
    pub zone_title: String,
    /// True where a stray tap must not confirm it.
    pub hazard: bool,
    /// Time with a hand on it. Unit: s.
    pub hands_on_s: i32,
    /// For a wait: what is left of it, once what comes before it is done and one has walked to where
    /// it is waited. Unit: s.
    pub wait_s: i32,
    /// Time to walk there. Unit: s.
    pub walk_s: i32,
    /// True where it cannot be put back.
    pub irreversible: bool,
    /// For a look: what it may show.
    pub choices: Vec<ChoiceRow>,
    /// The fitting that it is about, whose card tells more.
    pub card: Option<String>,
}

/// One line of the record.
#[uniffi::remote(Record)]
pub struct DoneRow {
    /// Names it to the engine.
    pub entry: i64,
    /// What was recorded.
    pub text: String,
    /// When. Unit: ms since 1970-01-01 UTC.
    pub at_utc_ms: i64,
    /// True where it was taken back.
    pub voided: bool,
}

/// How far an order is from the best.
#[uniffi::remote(Enum)]
pub enum OrderProof {
    /// No other order is better.
    Exact,
    /// Another order may be quicker.
    Gap {
        /// By this much at most. Unit: s.
        gap_s: i32,
    },
    /// There is no order.
    None,
}

/// A routine under way.
#[uniffi::remote(Record)]
pub struct RoutinePage {
    /// What it is and how far it is.
    pub run: RunRow,
    /// Whether the target holds.
    pub verdict: VerdictKind,
    /// The same in words.
    pub headline: String,
    /// What is left, in order. The first is the current one.
    pub steps: Vec<StepRow>,
    /// The same steps, by where one stands and by what one gesture confirms.
    #[uniffi(default = [])]
    pub stops: Vec<StopRow>,
    /// Gestures left; waits are none.
    #[uniffi(default = 0)]
    pub gesture_count: i32,
    /// Where nothing is left of a part but to let time pass: that it is done, and what is now true.
    #[uniffi(default = None)]
    pub part_end: Option<String>,
    /// Where nothing can come next but to let time pass, or something must not end alone: how long from now
    /// nobody need look, at about. Unit: s.
    #[uniffi(default = None)]
    pub waits_s: Option<i32>,
    /// In how long the page says something else though nobody did anything: a wait is over, or it is time to be
    /// where something must not end alone. Until then only what is left of a time changes. Unit: s, > 0.
    #[uniffi(default = None)]
    pub again_s: Option<i32>,
    /// Where the next step is to let time pass: when that is over, at about. Unit: ms since 1970-01-01 UTC.
    #[uniffi(default = None)]
    pub until_utc_ms: Option<i64>,
    /// What was done, newest first.
    pub done: Vec<DoneRow>,
    /// What could not be done.
    pub stuck: Vec<DoneRow>,
    /// Of these, what cannot be moved.
    pub cannot_move: Vec<StuckRow>,
    /// What to know on the way.
    pub warnings: Vec<String>,
    /// Why the target cannot be reached, where it cannot.
    pub impossible: Vec<String>,
    /// How far the order is from the best.
    pub proof: OrderProof,
    /// Time that the rest takes. Unit: s.
    pub elapsed_s: i32,
    /// The part of it spent walking. Unit: s.
    pub walk_s: i32,
    /// True when nothing is left to do.
    pub finished: bool,
    /// What is now true, said at the end.
    pub end_text: String,
    /// True after a pause: read the last step again.
    pub resumed_from_pause: bool,
    /// Before it is begun, where none was named: every variant of the target, the chosen one too.
    pub variants: Vec<VariantRow>,
}
