//! A stay without services: what holds, and what to see to before.

use serde::Serialize;

pub use crate::reserve::water::Holds;

/// One reserve over a stay.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct StayRow {
    /// Names its gauge to the engine.
    pub id: String,
    /// What it is.
    pub title: String,
    /// Whether it holds as it is; `None` where that cannot be told.
    pub holds: Option<Holds>,
    /// The same in words.
    pub holds_text: String,
    /// What the stay uses.
    pub used_text: Option<String>,
    /// How long it lasts as it is.
    pub left_text: Option<String>,
    /// What to see to before; `None` where nothing is needed, or nothing can be told.
    pub do_text: Option<String>,
    /// On what that rests.
    pub rests_text: Option<String>,
    /// What is missing for telling it.
    pub missing: Vec<String>,
    /// What the stay uses, the least and the most, rounded outward. Unit: as of
    /// [`super::ReserveRow::used_lower_per_day`].
    pub used_lower: Option<i64>,
    /// The most.
    pub used_upper: Option<i64>,
    /// What has to go in before, the least and the most; of what fills, `None`.
    pub add_lower: Option<i64>,
    /// The most.
    pub add_upper: Option<i64>,
}

/// All reserves over a stay.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct StayPage {
    /// How long. Unit: nights.
    pub nights: i64,
    /// What is asked.
    pub title: String,
    /// Whether all of it holds as it is: the worst that is known; `None` where nothing is, and where what
    /// is known holds but not all is known.
    pub holds: Option<Holds>,
    /// The same in words, with what ends first.
    pub holds_text: String,
    /// In walking order of the pack.
    pub rows: Vec<StayRow>,
    /// On what the numbers rest.
    pub about: String,
}
