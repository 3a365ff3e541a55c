//! The shapes of targets that cross; as in `page.rs`.

use stowfast_core::engine::{PartRow, TargetRow, VariantRow};

/// Something to get the vehicle ready for.
#[uniffi::remote(Record)]
pub struct TargetRow {
    /// Names it to the engine.
    pub id: String,
    /// In the owner's words.
    pub title: String,
    /// True where it ends on the road.
    pub road: bool,
    /// What it can be asked for alone.
    pub parts: Vec<PartRow>,
}

/// A part of a target.
#[uniffi::remote(Record)]
pub struct PartRow {
    /// Names it: a routine to `target/part` or `target/part+part` is to these alone.
    pub id: String,
    /// In the owner's words.
    pub title: String,
}

/// One way to want a target.
#[uniffi::remote(Record)]
pub struct VariantRow {
    /// Names target and variant to the engine.
    pub id: String,
    /// In the owner's words.
    pub title: String,
    /// What is different.
    pub about: String,
    /// True for the one that the page shows.
    pub chosen: bool,
    /// Steps to it.
    pub step_count: i32,
    /// How many gestures confirm them.
    pub gesture_count: i32,
    /// Time that they take. Unit: s.
    pub elapsed_s: i32,
    /// Why it cannot be reached, where it cannot.
    pub impossible: Vec<String>,
}
