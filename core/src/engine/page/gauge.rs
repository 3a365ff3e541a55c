//! Rows of gauges.

use serde::Serialize;

use super::ChoiceRow;
pub use crate::state::GaugeUnit;

/// One value that a gauge can show.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct GaugeChoice {
    /// In the gauge's unit.
    pub value: f64,
    /// In words.
    pub text: String,
}

/// Something that only a person knows and that bears on whether a reading counts.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct QuestionRow {
    /// Names the variable to the engine.
    pub variable: String,
    /// What is asked.
    pub title: String,
    /// What the answer may be.
    pub choices: Vec<ChoiceRow>,
    /// The answer given, if it is known.
    pub chosen: Option<String>,
}

/// One gauge and what it last said.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct GaugeRow {
    /// Names it to the engine.
    pub id: String,
    /// What it shows.
    pub title: String,
    /// The variable that a reading tells of, as one may also be told it.
    pub variable: String,
    /// How it is read.
    pub unit: GaugeUnit,
    /// What is to be said of it, and within which limits.
    pub expects: String,
    /// The values that it can show; none where any in the range can be typed.
    pub choices: Vec<GaugeChoice>,
    /// The least that can be entered, in `unit`.
    pub value_min: f64,
    /// The most that can be entered, in `unit`.
    pub value_max: f64,
    /// What is believed now.
    pub current_text: String,
    /// How old that is.
    pub age_text: Option<String>,
    /// How it is read, what that is of, and what to mind.
    pub about: Option<String>,
    /// A reading taken now would count.
    pub counts: bool,
    /// Why it would not, or what that takes for granted.
    pub note: Option<String>,
    /// What only a person can tell.
    pub questions: Vec<QuestionRow>,
}
