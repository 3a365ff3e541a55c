//! Rows of targets: what to get ready for, its parts and its variants.

use serde::Serialize;

/// Something to get the vehicle ready for.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct TargetRow {
    /// Names it to the engine.
    pub id: String,
    /// In the owner's words.
    pub title: String,
    /// It ends on the road.
    pub road: bool,
    /// What it can be asked for alone.
    pub parts: Vec<PartRow>,
}

/// A part of a target.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PartRow {
    /// Names it: a routine to `target/part` or `target/part+part` is to these alone.
    pub id: String,
    /// In the owner's words.
    pub title: String,
}

/// One way to want a target.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct VariantRow {
    /// Names target and variant to the engine.
    pub id: String,
    /// In the owner's words.
    pub title: String,
    /// What is different.
    pub about: String,
    /// The page shows this one.
    pub chosen: bool,
    /// Steps to it.
    pub step_count: i32,
    /// How many gestures confirm them.
    pub gesture_count: i32,
    /// What they take. Unit: s.
    pub elapsed_s: i32,
    /// Why it cannot be reached.
    pub impossible: Vec<String>,
}
