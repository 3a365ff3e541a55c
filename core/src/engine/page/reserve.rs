//! Rows of reserves: what is left, how much is used, how long it lasts.

use serde::Serialize;

/// One reserve: a tank, a cassette, a gas cylinder or a battery.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ReserveRow {
    /// Names its gauge to the engine.
    pub id: String,
    /// What it is.
    pub title: String,
    /// The end that it runs towards, in words: "empty", "full".
    pub end_text: String,
    /// What its gauge showed when it was last read, as it showed it; `None` while it never was.
    pub seen_text: Option<String>,
    /// How long ago that was.
    pub seen_age_text: Option<String>,
    /// That reading counts.
    pub seen_counts: bool,
    /// Why it does not, or what it takes for granted.
    pub seen_note: Option<String>,
    /// What is believed now.
    pub level_text: String,
    /// How old that is.
    pub level_age_text: Option<String>,
    /// Between what it lay when that was last told, as far as its gauge tells.
    pub between_text: Option<String>,
    /// What is used in a day, as an average.
    pub used_text: Option<String>,
    /// On what that rests: its readings, or what people said of themselves.
    pub rests_text: Option<String>,
    /// How long it lasts at that rate.
    pub left_text: Option<String>,
    /// How much more goes in for certain before it is full; `None` of what is used up, where it cannot
    /// be told, and where it may be full.
    pub room_text: Option<String>,
    /// What is missing for that, or did not count.
    pub missing: Vec<String>,
    /// The least and the most used in a day. Unit: mL; of gas by weight g; of a battery, and of gas
    /// of which the pack says no amount, tenths of a per cent.
    pub used_lower_per_day: Option<i64>,
    /// The most.
    pub used_upper_per_day: Option<i64>,
    /// The least time that it lasts from now on, rounded down. Unit: h.
    pub left_lower_h: Option<i64>,
    /// The most, rounded up; `None` also where nothing says that it ends. Unit: h.
    pub left_upper_h: Option<i64>,
    /// It may be the first of all to run out.
    pub first: bool,
}

/// Every reserve, and which runs out first.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ReservePage {
    /// Over `firsts`: which runs out first, as far as the ranges tell.
    pub first_text: String,
    /// Each that may come first.
    pub firsts: Vec<String>,
    /// Of which it cannot be told yet how long they last.
    pub unknown: Vec<String>,
    /// That this is so; empty where there is none.
    pub unknown_text: String,
    /// What all gas cylinders hold together; none where there is one, or one is not known.
    pub gas_text: Option<String>,
    /// In walking order of the pack.
    pub rows: Vec<ReserveRow>,
    /// On what the numbers rest.
    pub about: String,
}
