//! What to do at once, before any list.

use serde::Serialize;

use super::ChoiceRow;

/// A danger that no step leads out of: only somebody's word ends it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
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

/// What to do when people are in danger, of any vehicle.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct EmergencyPage {
    /// What comes before all else.
    pub intro: String,
    /// What may threaten, each with what to do.
    pub perils: Vec<PerilRow>,
    /// Where its words do not reach.
    pub foot: String,
}

/// What threatens people, and what to do.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PerilRow {
    /// Names it.
    pub id: String,
    /// What it is.
    pub title: String,
    /// What to do, the most urgent first.
    pub steps: Vec<String>,
}
