//! Rows of the search for the cause of something that does not work.

use serde::Serialize;

use super::{ActionRow, EmergencyRow, LinkRow};

/// How far a search has come.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum FaultStage {
    /// There is something to look at.
    Asking,
    /// A cause is found that the owner can mend.
    Found,
    /// Nothing is wrong.
    Normal,
    /// Somebody else has to see to it.
    Helper,
    /// It works again.
    Mended,
}

/// Something that may not work in this vehicle.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct FaultRow {
    /// Names it to the engine.
    pub id: String,
    /// What does not work.
    pub title: String,
    /// Names the place.
    pub zone_id: String,
    /// The place, in words.
    pub zone_title: String,
    /// How far its search has come.
    pub stage: FaultStage,
    /// How much was said in it; 0 where none is under way.
    pub said_count: i32,
}

/// What may be answered.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct AnswerRow {
    /// Names it to the engine.
    pub id: String,
    /// In words.
    pub text: String,
}

/// What to look at next.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct CheckRow {
    /// Names it to the engine.
    pub id: String,
    /// The question.
    pub text: String,
    /// How it is answered.
    pub how: Vec<String>,
    /// Names the place; empty for what can be said anywhere.
    pub zone_id: String,
    /// The place, in words.
    pub zone_title: String,
    /// The walk to it.
    pub walk_s: i32,
    /// How long it takes there.
    pub hands_on_s: i32,
    /// What it takes, if anything.
    pub tool_text: Option<String>,
    /// It bears on a hazard.
    pub hazard: bool,
    /// What to mind.
    pub cautions: Vec<String>,
    /// What may be seen; the last says that it cannot be looked at.
    pub answers: Vec<AnswerRow>,
}

/// A cause that was found, and what to do about it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct CauseRow {
    /// Names it to the engine, to be answered with one of `answers`.
    pub id: String,
    /// The cause.
    pub text: String,
    /// What to do, in order.
    pub remedy: Vec<String>,
    /// Who has to see to it, where the owner may not.
    pub helper_text: Option<String>,
    /// The routine that mends it.
    pub routine: Option<LinkRow>,
    /// Steps that mend it, of those that would change something.
    pub steps: Vec<ActionRow>,
    /// The cards that help, by fitting.
    pub cards: Vec<LinkRow>,
    /// It works again, or it does not.
    pub answers: Vec<AnswerRow>,
}

/// What may still be the cause.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct LikelyRow {
    /// Names it.
    pub id: String,
    /// In words.
    pub text: String,
    /// How likely it is by all that is known, rounded.
    pub chance_pct: i32,
    /// The same in a word.
    pub chance_text: String,
}

/// What does not fit together in a search.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ContraryRow {
    /// That it does not, and what counts now.
    pub text: String,
    /// What to look at again. Never empty where answers contradict each other.
    pub look_again: Vec<String>,
}

/// An alert that goes with a fault.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RedRow {
    /// Names the alert to the engine.
    pub id: String,
    /// In words.
    pub title: String,
    /// It is known to show now.
    pub shows: bool,
}

/// What was said in a search.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct TriedRow {
    /// The entry that says so.
    pub entry: i64,
    /// In words.
    pub text: String,
}

/// The search for the cause of one fault, as it stands.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct FaultPage {
    /// What it is.
    pub fault: FaultRow,
    /// What to do at once: dangers that no step leads out of. While one stands nothing is asked.
    pub emergency: Vec<EmergencyRow>,
    /// Where the search stands, in a line.
    pub headline: String,
    /// The usual cautions.
    pub cautions: Vec<String>,
    /// What to look at next.
    pub question: Option<CheckRow>,
    /// The time until the cause is known, as expected.
    pub expected_s: i32,
    /// How far above the least possible that may be; 0 where it is proven to be the least.
    pub gap_s: i32,
    /// Both in words, while something is asked.
    pub expected_text: String,
    /// The cause that was found, or who is to be asked.
    pub found: Option<CauseRow>,
    /// What may still be the cause, the likeliest first.
    pub likely: Vec<LikelyRow>,
    /// What the vehicle's state tells without asking.
    pub settled: Vec<String>,
    /// What does not fit together. Empty where all does.
    pub contrary: Vec<ContraryRow>,
    /// What was said, in its order.
    pub tried: Vec<TriedRow>,
    /// All of it as text, to be handed on.
    pub account: String,
    /// The cards that help, by fitting.
    pub cards: Vec<LinkRow>,
    /// What its fitting is known to show red now, then what may show red with it: the alerts from
    /// which it begins.
    pub shows_red: Vec<RedRow>,
    /// Where its facts come from.
    pub source: String,
    /// Where the likelihoods come from.
    pub likelihood: String,
}
