//! How the vehicle leans, as a phone that lies in it feels it.

use serde::Serialize;

use super::{Mark, Pick, ReckoningLine};

/// How a phone lies, to be kept as level. Unit: degrees from straight up; 90 lies level.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct LevelRest {
    /// Its top edge.
    pub ahead_deg: f64,
    /// Its left edge.
    pub left_deg: f64,
}

/// What is shown after one look. What it leans is of the last look at which the phone lay still.
#[derive(Debug, Clone, PartialEq)]
pub struct LevelPage {
    /// How it stands; `None` while that cannot be told.
    pub mark: Option<Mark>,
    /// What to do, without a number that may change at each look.
    pub verdict_text: String,
    /// Where the bubble of a spirit level stands: from -1 (rear) to 1 (front). `None` until it lay still.
    pub bubble_ahead: Option<f64>,
    /// The same from -1 (right) to 1 (left).
    pub bubble_left: Option<f64>,
    /// How it leans, and what that is to people and fridge.
    pub lean: Vec<ReckoningLine>,
    /// Front left, front right, rear left, rear right: what each lacks. One that is to be raised says so
    /// in its detail. None where the pack lacks the measures, and until it lay still.
    pub wheels: Vec<ReckoningLine>,
    /// Whether it was set to its spot, and how far it may be out.
    pub set_text: String,
    /// It was set.
    pub is_set: bool,
    /// How it lies, to be set; `None` while it does not lie still.
    pub rest: Option<LevelRest>,
    /// What the question of the level is asked with for the full answer; none while it does not lie
    /// still.
    pub picks: Vec<Pick>,
    /// What is missing for more.
    pub missing: Vec<String>,
    /// What to beware of.
    pub cautions: Vec<String>,
    /// How to lay the phone.
    pub how: Vec<String>,
}
