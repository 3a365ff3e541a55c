//! A leisure battery ahead: what it holds, what draws on it, for how many nights it lasts and how
//! it is charged again.
//!
//! Where its charge stands now is read from its resting volts: [`crate::reserve::battery`].
//!
//! # Model
//! Amperes times hours. What is taken out faster than the rated current counts for more by
//! Peukert's law; cold and age leave less than the plate says. Each day takes a day's use and gives
//! back what the sun brings.
//!
//! # Units
//! A, Ah, h, W, V, °C. Charge: a share of what the battery now holds, 0 to 1.
//!
//! # Source
//! Beside each number. "From memory" is still to be checked.
//!
//! # Error band
//! Every result is a band. A load is as exact as what was said of it.

mod capacity;
mod charging;
mod freezing;
mod load;
mod nights;
#[cfg(test)]
mod tests;

pub use capacity::{Capacity, ages, exponent, exponent_of, hours, warmth};
pub use charging::{
    Acceptance, ByDays, absorption_v, acceptance, charge_days, charge_h, level_after,
};
pub use freezing::{acid_freezes_c, freezes_at_c};
pub use load::{Load, drawn_ah, inverted_w, volts};
pub use nights::{Ahead, Day, NIGHTS_MAX, Run, ahead};

use crate::reserve::chemistry::Chemistry;

/// The charge below which a battery is not taken, for its own good.
///
/// # Units
/// Share, 0 to 1.
///
/// # Source
/// Half for lead, a fifth for lithium iron phosphate: common practice, no source.
#[must_use]
pub const fn floor(chemistry: Chemistry) -> f64 {
    match chemistry {
        Chemistry::Flooded | Chemistry::Agm | Chemistry::Gel => 0.5,
        Chemistry::Lifepo4 => 0.2,
    }
}

/// Whether it is a lead battery, of whichever make.
#[must_use]
pub const fn is_lead(chemistry: Chemistry) -> bool {
    match chemistry {
        Chemistry::Flooded | Chemistry::Agm | Chemistry::Gel => true,
        Chemistry::Lifepo4 => false,
    }
}
