//! Rows of numbers that only the people on board can tell.

use serde::Serialize;

/// One such number.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FigureRow {
    /// Names it to the engine.
    pub id: String,
    /// What it is told for, in words: neighbours of one use have the same.
    pub of_text: String,
    /// What it is.
    pub title: String,
    /// What it is for, or how to find it out.
    pub about: String,
    /// As it was last told; `None` where it is not known. In the unit that ends `id`, or a count.
    pub value: Option<f64>,
    /// The same in words.
    pub value_text: Option<String>,
    /// How long ago that was.
    pub age_text: Option<String>,
    /// The least that it can be.
    pub value_min: f64,
    /// The most.
    pub value_max: f64,
    /// How far apart two neighbours are.
    pub value_step: f64,
    /// The unit in which it is typed, in words; `None` for a count.
    pub unit_text: Option<String>,
}
