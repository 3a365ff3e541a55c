//! The pack: one vehicle as its technician described it, in a file.

mod check;
mod measure;
pub mod place;
mod read;
#[cfg(test)]
mod tests;

use std::collections::BTreeMap;

use serde::Deserialize;
use toml::Spanned;

use crate::catalogue::Datum;
pub use check::fitted_kinds;
pub use measure::{AXLES_MAX, Axle, Measures};
pub use read::read;

/// Most bytes in a pack file.
pub const BYTES_MAX: usize = 1_000_000;
/// Most fittings in a pack.
pub const FITTINGS_MAX: usize = 400;
/// Most zones in a pack.
pub const ZONES_MAX: usize = 40;
/// Longest note of a fitting. Unit: characters.
pub const NOTE_CHARS_MAX: usize = 500;
/// Longest walk between two zones. Unit: s.
pub const WALK_S_MAX: u32 = 3_600;
/// What is expected where a pack names a kind that there is not: how such an error begins.
pub const NO_KIND: &str = "a kind of fitting";

/// One vehicle: its zones, its fittings and what differs from the usual.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Pack {
    /// The version of the file format: 1.
    pub stowfast_pack: Spanned<u32>,
    /// The vehicle's name.
    pub title: Spanned<String>,
    /// What it is, in a line.
    #[serde(default)]
    pub about: String,
    /// Who made it, as their photos are to name them: a workshop, in a line.
    #[serde(default)]
    pub technician: Option<Spanned<String>>,
    /// Invented for demonstration.
    #[serde(default)]
    pub invented: bool,
    /// How long a departure stays open after the oldest look that it relies on. Unit: min.
    #[serde(default = "two_hours")]
    pub departure_lapse_min: Spanned<u32>,
    /// A wait longer than this ends a part of a routine. Unit: min.
    #[serde(default = "quarter_hour")]
    pub part_wait_min: Spanned<u32>,
    /// A list runs on over stops from which every line of it is at most so far, so that whoever
    /// doubts a line can go back and look. Common practice, no source. Unit: s of walking.
    #[serde(default = "ten_seconds")]
    pub list_walk_s: Spanned<u32>,
    /// The zone where a person starts when nobody has said where they are.
    pub home_zone: Spanned<String>,
    /// How large and how heavy it is.
    #[serde(default)]
    pub measures: Measures,
    /// Its axles, from the front.
    #[serde(default, rename = "axle")]
    pub axles: Vec<Axle>,
    /// Places to stand, in the technician's own walking order.
    #[serde(rename = "zone")]
    pub zones: Vec<Zone>,
    /// How long it takes from one to another.
    #[serde(default, rename = "walk")]
    pub walks: Vec<Walk>,
    /// What is fitted.
    #[serde(rename = "fitting")]
    pub fittings: Vec<Fitting>,
}

fn quarter_hour() -> Spanned<u32> {
    Spanned::new(0..0, 15)
}

fn ten_seconds() -> Spanned<u32> {
    Spanned::new(0..0, 10)
}

fn two_hours() -> Spanned<u32> {
    Spanned::new(0..0, 120)
}

/// A place where a person stands to do things.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Zone {
    /// Its id within the pack.
    pub id: Spanned<String>,
    /// What the technician calls it.
    pub title: Spanned<String>,
}

/// A way between two zones, the same in both directions unless the other is given too.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Walk {
    /// Where it starts.
    pub from: Spanned<String>,
    /// Where it ends.
    pub to: Spanned<String>,
    /// How long it takes. Unit: s, 1 to [`WALK_S_MAX`].
    pub seconds: Spanned<u32>,
}

/// One thing that is fitted.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Fitting {
    /// Its id within the pack.
    pub id: Spanned<String>,
    /// Its kind, from the catalogue.
    pub kind: Spanned<String>,
    /// What the technician calls it, as it stands inside a sentence.
    pub title: Spanned<String>,
    /// Where it is worked.
    pub zone: Spanned<String>,
    /// Variables that are worked elsewhere.
    #[serde(default)]
    pub zones: BTreeMap<String, Spanned<String>>,
    /// Pack values that differ from the kind's defaults.
    #[serde(default)]
    pub values: BTreeMap<String, Spanned<Datum>>,
    /// Settings that this one lacks, by variable.
    #[serde(default)]
    pub without: BTreeMap<String, Spanned<Vec<String>>>,
    /// Fittings that it belongs to, by role.
    #[serde(default)]
    pub links: BTreeMap<String, Spanned<String>>,
    /// Hands-on times that differ from the kind's, by move. Unit: s.
    #[serde(default)]
    pub seconds: BTreeMap<String, Spanned<u32>>,
    /// The technician's note: plain text of at most [`NOTE_CHARS_MAX`] characters, on lines.
    #[serde(default)]
    pub note: Option<Spanned<String>>,
    /// A photo of it: the name of a file beside the pack, or in a folder beside it. The command reads
    /// it with the pack (see [`crate::photo`]).
    #[serde(default)]
    pub photo: Option<Spanned<String>>,
}
