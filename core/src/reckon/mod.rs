//! Numbers ahead: what physics and tables say of this vehicle, each as a band.
//!
//! Nothing here knows words, the store or a clock. What was not said is asked for by whoever calls:
//! a model takes what it needs as an argument and has no default for it.

pub mod battery;
pub mod solar;

use serde::Serialize;

/// A number that lies between two, both possible.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Between {
    /// The least that it may be.
    pub lower: f64,
    /// The most.
    pub upper: f64,
}

impl Between {
    /// Between two numbers, whichever is the less.
    #[must_use]
    pub const fn new(one: f64, other: f64) -> Self {
        Self { lower: one.min(other), upper: one.max(other) }
    }

    /// One number alone.
    #[must_use]
    pub const fn exactly(value: f64) -> Self {
        Self { lower: value, upper: value }
    }

    /// Half-way.
    #[must_use]
    pub fn middle(self) -> f64 {
        f64::midpoint(self.lower, self.upper)
    }

    /// Each of two times each of the other, for numbers not below 0.
    #[must_use]
    pub fn times(self, other: Self) -> Self {
        Self { lower: self.lower * other.lower, upper: self.upper * other.upper }
    }

    /// Each of one over each of the other, for numbers above 0.
    #[must_use]
    pub fn over(self, other: Self) -> Self {
        Self { lower: self.lower / other.upper, upper: self.upper / other.lower }
    }

    /// Both together.
    #[must_use]
    pub fn plus(self, other: Self) -> Self {
        Self { lower: self.lower + other.lower, upper: self.upper + other.upper }
    }

    /// So many times it, for a number not below 0.
    #[must_use]
    pub fn scaled(self, by: f64) -> Self {
        Self { lower: self.lower * by, upper: self.upper * by }
    }

    /// What a function that rises makes of it.
    #[must_use]
    pub fn map(self, rising: impl Fn(f64) -> f64) -> Self {
        Self { lower: rising(self.lower), upper: rising(self.upper) }
    }

    /// Whether a number lies within.
    #[must_use]
    pub fn holds(self, value: f64) -> bool {
        self.lower <= value && value <= self.upper
    }
}

/// Between the rows of a rising table, straight lines; its first or last value beyond them. `None`
/// for a table without rows.
pub(crate) fn straight(rows: &[(f64, f64)], at: f64) -> Option<f64> {
    let below = rows.iter().rev().find(|row| row.0 <= at);
    let above = rows.iter().find(|row| row.0 >= at);
    match (below, above) {
        (Some(low), Some(high)) if high.0 > low.0 => {
            Some(low.1 + (high.1 - low.1) * (at - low.0) / (high.0 - low.0))
        }
        (Some(end), _) | (None, Some(end)) => Some(end.1),
        (None, None) => None,
    }
}
