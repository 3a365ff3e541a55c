//! From readings to bands: tanks by lamps, per cent or litres; a battery by its resting volts; a gas
//! cylinder by its gauge, its weight or what is seen of it.
//!
//! A reading is an interval, never a point, and gives every band that the interval touches. What
//! spoils a reading is listed beside it: [`Validity`] says whether it may change a belief.

mod band;
pub mod battery;
pub mod chemistry;
pub mod gas;
pub mod lasting;
pub mod tank;
pub mod water;

#[cfg(test)]
mod tests;

use std::ops::RangeInclusive;

use serde::{Deserialize, Serialize};

pub use band::Bands;

use crate::error::{Error, Result};
use crate::fridge::Known;

/// In which small unit the amounts of a reserve are counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Amount {
    /// Of a liquid.
    Millilitres,
    /// Of gas by weight.
    Grams,
    /// Tenths of a per cent of the whole.
    Permille,
}

impl Amount {
    /// The whole, in tenths of a per cent of itself.
    pub const WHOLE_PERMILLE: i64 = band::WHOLE_PERMILLE;
}

/// Whether a reading counts. Only one that does may change what is believed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Validity<D> {
    /// Nothing spoils it.
    Counts,
    /// Something spoils it for certain.
    DoesNotCount {
        /// Everything that does.
        because: Vec<D>,
        /// Everything else that may.
        check: Vec<D>,
    },
    /// Something may spoil it.
    CannotTell {
        /// Everything to look at.
        check: Vec<D>,
    },
}

impl<D> Validity<D> {
    /// From what may spoil a reading, each with whether it does. The order is kept.
    #[must_use]
    pub fn of(doubts: impl IntoIterator<Item = (Known, D)>) -> Self {
        let (mut because, mut check) = (Vec::new(), Vec::new());
        for (spoils, doubt) in doubts {
            match spoils {
                Known::Yes => because.push(doubt),
                Known::Unknown => check.push(doubt),
                Known::No => {}
            }
        }
        match (because.is_empty(), check.is_empty()) {
            (false, _) => Self::DoesNotCount { because, check },
            (true, false) => Self::CannotTell { check },
            (true, true) => Self::Counts,
        }
    }

    /// The reading may change what is believed.
    #[must_use]
    pub fn counts(&self) -> bool {
        matches!(self, Self::Counts)
    }
}

/// A typed number as a whole number of small units: litres to millilitres and volts to millivolts
/// with 1000 to the unit, per cent to tenths of a per cent with 10.
///
/// # Units
/// `value`: the typed unit. `per_unit`: small units in one of it. `range` and the result: small
/// units, rounded to the nearest, halves away from 0.
///
/// # Errors
/// [`Error::InvalidInput`] if `value` is not a number, or falls outside `range`, which is then told
/// in the typed unit.
///
/// # Source
/// Definition.
///
/// # Example
/// ```
/// use stowfast_core::reserve::whole;
///
/// assert_eq!(whole("volume_ml", 42.5, 1_000, 0..=100_000)?, 42_500);
/// assert!(whole("volume_ml", f64::NAN, 1_000, 0..=100_000).is_err());
/// # Ok::<(), stowfast_core::error::Error>(())
/// ```
pub fn whole(field: &str, value: f64, per_unit: u32, range: RangeInclusive<i64>) -> Result<i64> {
    let scaled = (value * f64::from(per_unit)).round();
    // Past this a float no longer holds every whole number.
    let exact = scaled.is_finite() && scaled.abs() <= 9_007_199_254_740_992.0;
    #[allow(
        clippy::as_conversions,
        clippy::cast_possible_truncation,
        reason = "finite, whole and within the range in which both types agree"
    )]
    let small = exact.then_some(scaled as i64);
    match small {
        Some(small) if range.contains(&small) => Ok(small),
        Some(_) | None => {
            let (least, most) = (typed(*range.start(), per_unit), typed(*range.end(), per_unit));
            Err(invalid(field, format!("{least} to {most}")))
        }
    }
}

/// A whole number of small units in the typed unit, as in "12.5".
fn typed(small: i64, per_unit: u32) -> String {
    match u32::try_from(small) {
        Ok(small) => (f64::from(small) / f64::from(per_unit)).to_string(),
        Err(_) => small.to_string(),
    }
}

/// `value`, if it lies in `range`.
fn within(field: &str, value: i64, range: &RangeInclusive<i64>) -> Result<i64> {
    if range.contains(&value) {
        return Ok(value);
    }
    Err(invalid(field, format!("{} to {}", range.start(), range.end())))
}

fn invalid(field: &str, expected: String) -> Error {
    Error::InvalidInput { field: field.to_owned(), expected }
}
