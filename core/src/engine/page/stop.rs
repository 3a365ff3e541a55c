//! Rows of stops: where one stands, and what one gesture confirms there.

use serde::Serialize;

pub use crate::routine::GestureKind;

/// Gestures that begin in one zone, one after the other.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct StopRow {
    /// Names the place.
    pub zone_id: String,
    /// The place, in words.
    pub zone_title: String,
    /// The part of the routine, from 1. A long wait ends a part.
    pub part: i32,
    /// What ends with this stop, where a part does.
    pub part_end: Option<String>,
    /// In order.
    pub gestures: Vec<GestureRow>,
}

/// What one gesture confirms.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct GestureRow {
    /// Alone, as one list, or not at all.
    pub kind: GestureKind,
    /// The steps, by id, in the order of the page's steps.
    pub steps: Vec<String>,
    /// What is then so, line by line: what to see with one's own eyes before confirming.
    pub lines: Vec<String>,
    /// A stray tap must not confirm it: hold.
    pub hold: bool,
}
