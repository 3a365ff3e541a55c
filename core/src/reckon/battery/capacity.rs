//! What a battery gives: less when it is drawn on hard, cold or old.

use super::is_lead;
use crate::reckon::Between;
use crate::reserve::chemistry::Chemistry;

/// At this temperature the plate's capacity counts. Unit: °C. IEEE 485: 25 °C.
const RATED_C: f64 = 25.0;
/// At this temperature so many times the capacity is needed (1000 Ah become 1650 Ah): a maker's
/// worked example for deep-cycle lead batteries. Units: °C; a factor.
const COLD: (f64, f64) = (-10.0, 1.65);
/// How far the share may be off, either way: the tolerance of that example.
const COLD_ERROR: f64 = 0.05;

/// What the plate says.
///
/// # Units
/// `ah`: Ah, > 0, at the current that empties it in `rated_h` hours, > 0. `exponent`: Peukert's, ≥ 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Capacity {
    /// Rated capacity.
    pub ah: f64,
    /// Over how many hours.
    pub rated_h: f64,
    /// Peukert's exponent.
    pub exponent: Between,
}

impl Capacity {
    /// The current at which the plate's capacity counts.
    ///
    /// # Units
    /// A.
    #[must_use]
    pub fn rated_a(&self) -> f64 {
        self.ah / self.rated_h
    }
}

/// How long a full battery lasts at a steady current: Peukert's law in its rated form,
/// t = H (C / (I H))^k.
///
/// # Units
/// `capacity_ah`: Ah at the `rated_h`-hour rate. `current_a`: A. Returns hours; `None` unless all are
/// above 0.
///
/// # Source
/// Peukert 1897. At the rated current it is the rated time for every exponent.
///
/// # Example
/// ```
/// use stowfast_core::reckon::battery::hours;
///
/// let hours = hours(100.0, 20.0, 1.2, 10.0).unwrap();
/// assert!((hours - 8.705_5).abs() < 1e-4);
/// ```
#[must_use]
pub fn hours(capacity_ah: f64, rated_h: f64, exponent: f64, current_a: f64) -> Option<f64> {
    let all = [capacity_ah, rated_h, exponent, current_a];
    let sound = all.iter().all(|one| one.is_finite() && *one > 0.0);
    sound.then(|| rated_h * libm::pow(capacity_ah / (current_a * rated_h), exponent))
}

/// Peukert's exponent from two discharges, each a current and how long it lasted; `None` where they
/// do not tell one.
///
/// # Units
/// A, h.
///
/// # Source
/// Peukert's law, solved: k = ln(t2 / t1) / ln(I1 / I2).
#[must_use]
pub fn exponent_of(one: (f64, f64), other: (f64, f64)) -> Option<f64> {
    let found = libm::log(other.1 / one.1) / libm::log(one.0 / other.0);
    (found.is_finite() && found >= 1.0).then_some(found)
}

/// Peukert's exponent where the plate does not tell it.
///
/// # Source
/// Lead: 1.1 to 1.3 is usual for modern batteries (several pages). Lithium iron phosphate: 1.0 to
/// 1.05, from memory.
#[must_use]
pub fn exponent(chemistry: Chemistry) -> Between {
    if is_lead(chemistry) { Between::of(1.1, 1.3) } else { Between::of(1.0, 1.05) }
}

/// What is left of the plate's capacity in a battery of unknown age.
///
/// # Units
/// Share.
///
/// # Source
/// One that holds less than four fifths counts as worn out: common practice, no source.
#[must_use]
pub fn ages() -> Between {
    Between::of(0.8, 1.0)
}

/// What share of its capacity a battery gives at a temperature of its cells.
///
/// A straight line in the share, from all at 25 °C through the example at −10 °C, and never more than
/// all. Of lithium no figure is known: between that line and all.
///
/// # Units
/// `cells_c`: °C.
///
/// # Source
/// Lead: a maker's example, −10 °C ×1.65, ±5 %. The table of IEEE 485, from memory, lies within.
#[must_use]
pub fn warmth(chemistry: Chemistry, cells_c: Between) -> Between {
    let share = |at_c: f64| {
        let fall = (1.0 - 1.0 / COLD.1) / (RATED_C - COLD.0);
        (1.0 - fall * (RATED_C - at_c)).clamp(0.0, 1.0)
    };
    let band = cells_c.through(share);
    let upper = if is_lead(chemistry) { (band.upper * (1.0 + COLD_ERROR)).min(1.0) } else { 1.0 };
    let lower = if cells_c.lower >= RATED_C { 1.0 } else { band.lower * (1.0 - COLD_ERROR) };
    Between { lower, upper }
}
