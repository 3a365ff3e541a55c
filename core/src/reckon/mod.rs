//! What is reckoned from numbers alone: physics and tables, without words, log or clock.
//!
//! Every answer is a band, [`Between`]; what is missing stays unknown.

pub mod supply;

use serde::Serialize;

/// A quantity that lies between two ends, both possible.
///
/// # Units
/// Those of whatever it is of; `lower` ≤ `upper`.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Between {
    /// The least that it may be.
    pub lower: f64,
    /// The most that it may be.
    pub upper: f64,
}
