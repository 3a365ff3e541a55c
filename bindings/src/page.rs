//! The shapes that cross: copies of the core's own pages, held equal to them by the compiler.
//!
//! A field or variant that the core gains or loses is a compile error here. What is written on a
//! field here is what the app's authors read, because the Kotlin is generated from this copy.

use stowfast_core::engine::{
    ChoiceRow, DemoRow, DoneRow, EmergencyRow, FridgePage, ItemRow, NowPage, OrderProof,
    ReminderRow, RoutinePage, RunRow, Severity, StandsRow, StepKind, StepRow, StopRow, StuckRow,
    VariantRow, VehicleRow, VerdictKind,
};

/// One vehicle on this phone.
#[uniffi::remote(Record)]
pub struct VehicleRow {
    /// Names it to the engine.
    pub id: i64,
    /// As its pack calls it.
    pub title: String,
    /// True for a vehicle that came with the app and stands for no real one.
    pub invented: bool,
    /// True for the one that every page is about.
    pub current: bool,
    /// Why its pack no longer reads; it then stands in its last good form.
    pub problem: Option<String>,
}

/// An invented vehicle that comes with the app.
#[uniffi::remote(Record)]
pub struct DemoRow {
    /// Names it to the engine.
    pub id: String,
    /// As its pack calls it.
    pub title: String,
    /// What there is to try in it.
    pub about: String,
    /// True where a vehicle of its title is here already: it cannot be added again.
    pub here: bool,
}

/// The answer about the list, never about the vehicle.
#[uniffi::remote(Enum)]
pub enum VerdictKind {
    /// All that must hold is known to hold.
    Clear,
    /// Something that must not be so is so.
    Blocked,
    /// Something that matters is not known.
    Unknown,
}

/// What is at stake.
#[uniffi::remote(Enum)]
pub enum Severity {
    /// People.
    Danger,
    /// The vehicle.
    Damage,
    /// Comfort.
    Nuisance,
}

/// One thing that blocks, or is not known.
#[uniffi::remote(Record)]
pub struct ItemRow {
    /// Names it to the engine.
    pub variable: String,
    /// What it is about; the rule itself where several things hang together.
    pub title: String,
    /// What it must be; where several things hang together, the one way out.
    pub wanted: String,
    /// What it is believed to show.
    pub seen: String,
    /// Why that matters.
    pub reason: String,
    /// Where the rule comes from.
    pub source: String,
    /// What is at stake.
    pub severity: Severity,
    /// True where it is known to be wrong, false where it is not known.
    pub known_bad: bool,
    /// Where to go.
    pub zone_title: String,
    /// What to do and leave alone in this danger, and the caution of the move that mends it.
    pub caution: Option<String>,
    /// It cannot be moved, and what to do instead.
    pub stuck: Option<StuckRow>,
}

/// Something that cannot be moved, until somebody says that it moves again.
#[uniffi::remote(Record)]
pub struct StuckRow {
    /// The entry that says so, to be taken back.
    pub entry: i64,
    /// What it is.
    pub title: String,
    /// What to do instead.
    pub text: String,
}

/// A routine being carried out.
#[uniffi::remote(Record)]
pub struct RunRow {
    /// Names it to the engine.
    pub id: i64,
    /// What it leads to.
    pub target_id: String,
    /// The same in words.
    pub target_title: String,
    /// True while it waits to be resumed.
    pub paused: bool,
    /// Steps done.
    pub done_count: i32,
    /// Steps left, as planned now.
    pub left_count: i32,
    /// True where it ends on the road.
    pub road: bool,
}

/// A danger that no step leads out of: only somebody's word ends it.
#[uniffi::remote(Record)]
pub struct EmergencyRow {
    /// Names the variable to the engine.
    pub variable: String,
    /// What it is, and how it stands.
    pub title: String,
    /// What to do now, the most urgent first.
    pub text: String,
    /// What can be said of it.
    pub choices: Vec<ChoiceRow>,
}

/// What a routine left the vehicle in until another one ends it.
#[uniffi::remote(Record)]
pub struct StandsRow {
    /// In a plain line.
    pub headline: String,
    /// True where it was carried out; else it was begun and left.
    pub finished: bool,
    /// When it was finished, or begun, where that is known.
    pub since_utc_ms: Option<i64>,
    /// What to offer first.
    pub target_id: String,
    /// The same in words.
    pub target_title: String,
    /// The routine that leads into it.
    pub led_id: String,
    /// The same in words.
    pub led_title: String,
    /// What that routine asks and is known not to be so, or not known to be so.
    pub items: Vec<ItemRow>,
    /// What is as it asks by somebody's word alone, or as far as nobody said otherwise.
    pub not_seen: Vec<String>,
}

/// What the vehicle is doing and what matters next.
#[uniffi::remote(Record)]
pub struct NowPage {
    /// What to do now in the dangers that no step leads out of; before anything else.
    pub emergency: Vec<EmergencyRow>,
    /// The vehicle.
    pub vehicle_title: String,
    /// Where it stands.
    pub place_title: String,
    /// True on the road: then the items are what is known to be wrong.
    pub moving: bool,
    /// Ready to drive, or not, or not known.
    pub verdict: VerdictKind,
    /// The same in words.
    pub headline: String,
    /// What it rests on.
    pub detail: String,
    /// All that blocks or is not known, worst first.
    pub items: Vec<ItemRow>,
    /// How many items the list has in all.
    pub item_count: i32,
    /// How old the oldest look is.
    pub oldest_look_text: Option<String>,
    /// True where the phone's clock was set while something was being timed.
    pub clock_changed: bool,
    /// The routine under way.
    pub run: Option<RunRow>,
    /// What a routine left it in, such as laid up for winter, and what ends that.
    pub stands: Option<StandsRow>,
    /// The fridge, where one is fitted that can choose.
    pub fridge: Option<FridgePage>,
    /// What to fill or empty soon, the soonest first.
    pub reminders: Vec<ReminderRow>,
    /// When there will be one more of these, as things are used now. Unit: ms since 1970-01-01 UTC.
    pub remind_utc_ms: Option<i64>,
}

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
