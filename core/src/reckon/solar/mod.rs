//! What a flat panel on the roof brings in a day.
//!
//! # Model
//! What the sun would bring above the air, by latitude and day, times the share that the sky lets
//! through, times what panel, wiring and regulator make of it. The panel lies flat and nothing shades
//! it.
//!
//! # Units
//! Degrees, hours, kWh/m² a day, Wh a day, Wp.
//!
//! # Source
//! Beside each number.
//!
//! # Error band
//! ±25 % for a month of real weather and ±10 % for a year where the share of the sky is known; within
//! a class of cloud as wide as the class.

mod panel;
mod sun;
#[cfg(test)]
mod tests;

pub use panel::{Sky, charge_ah, clearness, day_wh, flat_wh, performance};
pub use sun::{Sun, above_the_air_kwh_m2, day_length_h, noon_elevation_deg};
