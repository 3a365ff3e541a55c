//! How long water takes to get hot.
//!
//! # Model
//! Mass times specific heat times rise, over power. What the boiler loses meanwhile is not counted, so
//! it never takes less than the lower end.
//!
//! # Units
//! Litres, degrees Celsius, watts at 230 V; minutes.
//!
//! # Source
//! 4.186 kJ for a kilogram and kelvin, 1 kg to the litre: definition of the calorie at 15 °C; within
//! 0.4 % of tabulated water up to 70 °C.
//!
//! # Error band
//! That of a heating element on mains of 230 V ± 10 %: its power goes with the square of the volts.

use crate::reckon::Between;

/// Unit: kJ for a litre and kelvin.
const KJ_PER_LITRE_KELVIN: f64 = 4.186;
/// What an element gives, in parts of its rated power: 0.9 at 207 V, 1.05 at 253 V.
const GIVES: Between = Between { lower: 0.9 * 0.81, upper: 1.05 * 1.21 };

/// Heat to warm water.
///
/// # Units
/// Litres, °C; kWh, 0 where nothing has to be warmed.
#[must_use]
pub fn energy_kwh(volume_l: f64, from_c: f64, to_c: f64) -> f64 {
    volume_l * KJ_PER_LITRE_KELVIN * (to_c - from_c).max(0.0) / 3_600.0
}

/// How long an element takes, if nothing is lost.
///
/// # Units
/// `volume_l`: L. `from`: °C, as cold as it may be. `to_c`: °C. `rated_w`: W at 230 V. The result: min;
/// `None` without power.
#[must_use]
pub fn minutes(volume_l: f64, from: Between, to_c: f64, rated_w: f64) -> Option<Between> {
    let some = rated_w > 0.0 && rated_w.is_finite() && volume_l >= 0.0;
    let needs_kwh = from.through(|from_c| energy_kwh(volume_l, from_c, to_c));
    some.then(|| needs_kwh * 60_000.0 / (GIVES * rated_w))
}
