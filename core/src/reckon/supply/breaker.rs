//! What a miniature circuit breaker makes of a current.
//!
//! # Model
//! Its slow part carries the rated current for good, and 1.13 times that for an hour; at 1.45 times it
//! trips within the hour; in between either may be. Its fast part trips at once somewhere in a band of
//! multiples that its type names. Which type it is a plate may not say: then any of the three.
//!
//! # Units
//! Amperes; multiples of the rated current.
//!
//! # Source
//! IEC 60898-1: 1.13 and 1.45 within one hour up to 63 A, types B 3 to 5, C 5 to 10, D 10 to 20, at
//! 30 °C. In a post that stands in the sun it trips sooner, in frost later; neither is reckoned.
//!
//! # Error band
//! The standard's own: between the two currents nothing is promised.

use serde::Serialize;

use super::load::MAINS_V;
use crate::reckon::Between;

/// What is carried for an hour, in multiples of the rated current.
const HOLDS: f64 = 1.13;
/// What trips within the hour.
const TRIPS: f64 = 1.45;
/// What a float may be out by and still be the same current.
const HAIR: f64 = 1e-9;

/// The type of a breaker: how large a surge trips it at once.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Curve {
    /// 3 to 5 times the rated current.
    B,
    /// 5 to 10 times.
    C,
    /// 10 to 20 times.
    D,
}

impl Curve {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::B, Self::C, Self::D];

    /// Below the lower end it does not trip at once, above the upper it does.
    ///
    /// # Units
    /// Multiples of the rated current.
    ///
    /// # Source
    /// IEC 60898-1.
    #[must_use]
    pub fn at_once(self) -> Between {
        match self {
            Self::B => Between { lower: 3.0, upper: 5.0 },
            Self::C => Between { lower: 5.0, upper: 10.0 },
            Self::D => Between { lower: 10.0, upper: 20.0 },
        }
    }
}

/// What becomes of a breaker that carries a current; the better first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Steady {
    /// Not above what it is rated for.
    Carries,
    /// Above it, but held for an hour.
    HoldsAnHour,
    /// It may trip within the hour, or not.
    MayTrip,
    /// It trips within the hour.
    Trips,
}

/// What becomes of it at a surge; the better first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Surge {
    /// It does not trip at once.
    Holds,
    /// It may trip at once.
    MayTrip,
    /// It trips at once.
    Trips,
}

/// A breaker.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Breaker {
    /// Its rated current. Unit: A, > 0.
    pub rated_a: f64,
    /// Its type, where that is known.
    pub curve: Option<Curve>,
}

impl Breaker {
    /// One whose type nobody knows, as a rule: a post's.
    ///
    /// # Units
    /// `rated_a`: A.
    #[must_use]
    pub fn of(rated_a: f64) -> Self {
        Self { rated_a, curve: None }
    }

    /// What it carries for good, on mains of 230 V. Unit: W.
    #[must_use]
    pub fn rated_w(&self) -> f64 {
        self.rated_a * MAINS_V
    }

    /// The most that it carries for an hour for certain. Unit: A.
    ///
    /// # Source
    /// IEC 60898-1: 1.13 times its rated current.
    #[must_use]
    pub fn holds_a(&self) -> f64 {
        self.rated_a * HOLDS
    }

    /// From how much on it trips within the hour for certain. Unit: A.
    ///
    /// # Source
    /// IEC 60898-1: 1.45 times its rated current.
    #[must_use]
    pub fn trips_a(&self) -> f64 {
        self.rated_a * TRIPS
    }

    /// What becomes of it under a current that lasts.
    ///
    /// # Units
    /// `current_a`: A, ≥ 0; what is no number trips.
    ///
    /// # Example
    /// ```
    /// use stowfast_core::reckon::supply::breaker::{Breaker, Steady};
    ///
    /// let post = Breaker::of(6.0);
    /// assert_eq!(post.steady(6.78), Steady::HoldsAnHour);
    /// assert_eq!(post.steady(8.7), Steady::Trips);
    /// ```
    #[must_use]
    pub fn steady(&self, current_a: f64) -> Steady {
        let upto = |most_a: f64| current_a <= most_a + HAIR;
        match () {
            () if upto(self.rated_a) => Steady::Carries,
            () if upto(self.holds_a()) => Steady::HoldsAnHour,
            () if current_a < self.trips_a() - HAIR => Steady::MayTrip,
            () => Steady::Trips,
        }
    }

    /// The better and the worse end for a current that lies between two.
    ///
    /// # Units
    /// A, ≥ 0.
    #[must_use]
    pub fn steady_between(&self, current: Between) -> (Steady, Steady) {
        (self.steady(current.lower), self.steady(current.upper))
    }

    /// What becomes of it at a surge of some thousandths of a second up to a few.
    ///
    /// # Units
    /// `peak`: A, ≥ 0.
    #[must_use]
    pub fn surge(&self, peak: Between) -> Surge {
        let curves = Curve::ALL.into_iter().filter(|one| self.curve.is_none_or(|own| own == *one));
        let bands: Vec<Between> = curves.map(Curve::at_once).collect();
        let above = |most: f64, peak_a: f64| peak_a > most * self.rated_a - HAIR;
        match () {
            () if bands.iter().all(|band| above(band.upper, peak.lower)) => Surge::Trips,
            () if bands.iter().any(|band| above(band.lower, peak.upper)) => Surge::MayTrip,
            () => Surge::Holds,
        }
    }
}
