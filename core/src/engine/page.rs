//! What a screen shows, in words and plain numbers. Nothing here is computed.

mod alert;
mod card;
mod changes;
mod drive_card;
mod emergency;
mod fault;
mod figure;
mod fridge;
mod gauge;
mod level;
mod pair;
mod photo;
mod reckon;
mod remind;
mod reserve;
mod stay;
mod stop;
mod target;

pub use alert::*;
pub use card::*;
pub use changes::*;
pub use drive_card::*;
pub use emergency::*;
pub use fault::*;
pub use figure::*;
pub use fridge::*;
pub use gauge::*;
pub use level::*;
pub use pair::*;
pub use photo::*;
pub use reckon::*;
pub use remind::*;
pub use reserve::*;
use serde::{Serialize, Serializer};
pub use stay::*;
pub use stop::*;
pub use target::*;

pub use crate::catalogue::Severity;
pub use crate::interlock::VerdictKind;
use crate::vehicle::Deed;

/// One vehicle of this database.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct VehicleRow {
    /// Names it to the engine.
    pub id: i64,
    /// As its pack calls it.
    pub title: String,
    /// It stands for no real one.
    pub invented: bool,
    /// The one that every page is about.
    pub current: bool,
    /// Why its pack no longer reads.
    pub problem: Option<String>,
}

/// An invented vehicle that is built in.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct DemoRow {
    /// Names it to the engine.
    pub id: String,
    /// As its pack calls it.
    pub title: String,
    /// What it is.
    pub about: String,
    /// A vehicle of its title is here already, so it cannot be added.
    pub here: bool,
}

/// An invented place that is built in.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PlaceRow {
    /// Names it to the engine.
    pub id: String,
    /// What it is called.
    pub title: String,
    /// What it is like.
    pub about: String,
    /// Invented for demonstration.
    pub invented: bool,
}

/// One thing that blocks, or is not known.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ItemRow {
    /// Names the variable to the engine.
    pub variable: String,
    /// What it is about; the rule itself where several things hang together.
    pub title: String,
    /// What it must be; where several things hang together, the one way out.
    pub wanted: String,
    /// What it is believed to be.
    pub seen: String,
    /// Why that matters.
    pub reason: String,
    /// Where the rule comes from.
    pub source: String,
    /// What is at stake.
    pub severity: Severity,
    /// Known to be wrong, rather than not known to be right.
    pub known_bad: bool,
    /// Where to go.
    pub zone_title: String,
    /// What to do and leave alone where this danger stands now, and the caution of the move that
    /// mends it.
    pub caution: Option<String>,
    /// It cannot be moved, and what to do instead.
    pub stuck: Option<StuckRow>,
}

/// Something that cannot be moved, until somebody says that it moves again.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct StuckRow {
    /// The entry that says so, to be taken back.
    pub entry: i64,
    /// What it is.
    pub title: String,
    /// What to do instead.
    pub text: String,
}

/// A routine being carried out.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RunRow {
    /// Names it to the engine.
    pub id: i64,
    /// What it leads to.
    pub target_id: String,
    /// The same in words.
    pub target_title: String,
    /// Laid aside.
    pub paused: bool,
    /// Steps done.
    pub done_count: i32,
    /// Steps left, as planned now.
    pub left_count: i32,
    /// It ends on the road.
    pub road: bool,
}

/// What a routine left the vehicle in until another one ends it: laid up for winter.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct StandsRow {
    /// In a plain line.
    pub headline: String,
    /// Told by whoever carried that routine out, or otherwise; else it was begun and left.
    pub finished: bool,
    /// When it was finished, or begun; `None` where that lies ahead by the clock of now. Unit: ms.
    pub since_utc_ms: Option<i64>,
    /// What to offer first: what ends it, or the routine that was left.
    pub target_id: String,
    /// The same in words.
    pub target_title: String,
    /// The routine that leads into it.
    pub led_id: String,
    /// The same in words.
    pub led_title: String,
    /// What that routine asks and is known not to be so, or not known to be so; the first first.
    pub items: Vec<ItemRow>,
    /// What is as it asks by somebody's word alone, or as far as nobody said otherwise.
    pub not_seen: Vec<String>,
}

/// What the vehicle is doing and what matters next.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct NowPage {
    /// What to do now in the dangers that no step leads out of; before anything else.
    pub emergency: Vec<EmergencyRow>,
    /// The vehicle.
    pub vehicle_title: String,
    /// What is known of the place.
    pub place_title: String,
    /// It is on the road: only what is known to be wrong is in the way.
    pub moving: bool,
    /// Whether the list for the road is clear.
    pub verdict: VerdictKind,
    /// The same in words, about the list; on the road, that it is there.
    pub headline: String,
    /// What it rests on.
    pub detail: String,
    /// All that blocks or is not known; what is known to be wrong first.
    pub items: Vec<ItemRow>,
    /// How many things the list asks.
    pub item_count: i32,
    /// How old the oldest look is that it relies on.
    pub oldest_look_text: Option<String>,
    /// The clock cannot be compared with the log.
    pub clock_changed: bool,
    /// The routine under way.
    pub run: Option<RunRow>,
    /// What a routine left it in, and what ends that.
    pub stands: Option<StandsRow>,
    /// The first fridge that can choose its source.
    pub fridge: Option<FridgePage>,
    /// What to fill or empty soon, the soonest first.
    pub reminders: Vec<ReminderRow>,
    /// When there will be one more of these, as things are used now. Unit: ms since 1970-01-01 UTC.
    pub remind_utc_ms: Option<i64>,
}

/// Something to do, or something to look at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum StepKind {
    /// Changes the vehicle.
    Move,
    /// Finds out.
    Look,
    /// Lets time pass.
    Wait,
}

impl StepKind {
    pub(super) fn of(deed: Deed) -> Self {
        match deed {
            Deed::Move => Self::Move,
            Deed::Look => Self::Look,
            Deed::Wait => Self::Wait,
        }
    }
}

/// One setting that a look may show.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ChoiceRow {
    /// Names it to the engine.
    pub id: String,
    /// In words.
    pub text: String,
}

/// One step of a routine.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct StepRow {
    /// Names it to the engine.
    pub id: String,
    /// Move or look.
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
    /// A stray tap must not confirm it.
    pub hazard: bool,
    /// Hands-on time. Unit: s.
    pub hands_on_s: i32,
    /// Of a wait: what is left of it, once what comes before it is done and one has walked to where
    /// it is waited. Unit: s.
    pub wait_s: i32,
    /// The walk there from the step before. Unit: s.
    pub walk_s: i32,
    /// It cannot be taken back.
    pub irreversible: bool,
    /// Of a look: what it may show; the expected first.
    pub choices: Vec<ChoiceRow>,
    /// The fitting that it is about: names its card.
    pub card: Option<String>,
}

/// One move or look of the vehicle, whether a routine asks for it or not.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ActionRow {
    /// Names it to the engine.
    pub id: String,
    /// Move or look.
    pub kind: StepKind,
    /// What to do.
    pub text: String,
    /// Names the place.
    pub zone_id: String,
    /// The place, in words.
    pub zone_title: String,
    /// It bears on a hazard.
    pub hazard: bool,
}

/// One thing that can be reported, and what is believed of it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ThingRow {
    /// Names the variable to the engine.
    pub variable: String,
    /// What it is.
    pub title: String,
    /// Names the place.
    pub zone_id: String,
    /// The place, in words.
    pub zone_title: String,
    /// What it can be.
    pub choices: Vec<ChoiceRow>,
    /// The choices that it may have, as far as is known: one where it is known, all where not.
    pub believed: Vec<String>,
    /// The same in words.
    pub current_text: String,
    /// How long ago that was said; `None` while nobody has said anything.
    pub age_text: Option<String>,
}

/// One line of the log.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct DoneRow {
    /// Names the entry to the engine.
    pub entry: i64,
    /// What was said.
    pub text: String,
    /// When. Unit: ms since 1970-01-01 UTC.
    pub at_utc_ms: i64,
    /// It was taken back.
    pub voided: bool,
}

/// How far an order is from the best.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
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

/// In JSON as text: `exact`, `gap N s`, or empty.
impl Serialize for OrderProof {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        match self {
            Self::Exact => to.serialize_str("exact"),
            Self::Gap { gap_s } => to.collect_str(&format_args!("gap {gap_s} s")),
            Self::None => to.serialize_str(""),
        }
    }
}

/// A routine under way.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RoutinePage {
    /// What it is and how far it is.
    pub run: RunRow,
    /// Whether its target is reached.
    pub verdict: VerdictKind,
    /// The same in words.
    pub headline: String,
    /// What is left, in order; the first is the current one.
    pub steps: Vec<StepRow>,
    /// The same steps, by where one stands and by what one gesture confirms.
    pub stops: Vec<StopRow>,
    /// Gestures left; waits are none.
    pub gesture_count: i32,
    /// Where nothing is left of a part but to let time pass: that it is done, and what is now true.
    pub part_end: Option<String>,
    /// Where nothing can come next but to let time pass, or something must not end alone: how long from now
    /// nobody need look, at about. Unit: s.
    pub waits_s: Option<i32>,
    /// In how long the page says something else though nobody did anything: a wait is over, or it is time to be
    /// where something must not end alone. Until then only what is left of a time changes. Unit: s, > 0.
    pub again_s: Option<i32>,
    /// Where the next step is to let time pass: when that is over, at about. Unit: ms since 1970-01-01 UTC.
    pub until_utc_ms: Option<i64>,
    /// What was done, newest first.
    pub done: Vec<DoneRow>,
    /// What cannot be done, and what was left knowingly.
    pub stuck: Vec<DoneRow>,
    /// Of these, what cannot be moved.
    pub cannot_move: Vec<StuckRow>,
    /// What to know on the way.
    pub warnings: Vec<String>,
    /// Why the target cannot be reached.
    pub impossible: Vec<String>,
    /// How far the order is from the best.
    pub proof: OrderProof,
    /// What the rest takes. Unit: s.
    pub elapsed_s: i32,
    /// How much of it is walking. Unit: s.
    pub walk_s: i32,
    /// Nothing is left and the target is reached.
    pub finished: bool,
    /// What is now true, said at the end.
    pub end_text: String,
    /// It was laid aside and taken up again: read the last step once more.
    pub resumed_from_pause: bool,
    /// Before it is opened, where none was named: every variant of the target, the chosen one too.
    pub variants: Vec<VariantRow>,
}
