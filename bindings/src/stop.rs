//! The shapes of gestures that cross; as in `page.rs`.

use stowfast_core::engine::{GestureKind, GestureRow, Line, Odd, StopRow};

/// How steps are confirmed.
#[uniffi::remote(Enum)]
pub enum GestureKind {
    /// Alone, or with its like.
    Own,
    /// As lines of one list.
    Together,
    /// Not at all: time does it.
    Wait,
}

/// What one gesture confirms.
#[uniffi::remote(Record)]
pub struct GestureRow {
    /// Alone, as one list, or not at all.
    pub kind: GestureKind,
    /// The steps, by id, in the order of the page's steps.
    pub steps: Vec<String>,
    /// What is then so, line by line: what to see with one's own eyes before confirming.
    pub lines: Vec<String>,
    /// True where a stray tap must not confirm it: hold.
    pub hold: bool,
}

/// Gestures that begin in one zone, one after the other.
#[uniffi::remote(Record)]
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

/// How a line was otherwise than it says.
#[uniffi::remote(Enum)]
pub enum Odd {
    /// The look showed this setting.
    Seen(String),
    /// It cannot be done or looked at; why, or empty.
    Cannot(String),
}

/// One line of a list, as it was found.
#[uniffi::remote(Record)]
pub struct Line {
    /// The step.
    pub step: String,
    /// What it was instead of what the line says.
    pub odd: Option<Odd>,
}
