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
