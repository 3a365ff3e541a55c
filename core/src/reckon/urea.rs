//! Urea solution for the exhaust (AUS 32): how far it goes, what fits in and what that weighs.
//!
//! # Model
//! It is used up with the fuel, as a share of it by volume.
//!
//! # Units
//! L, km, kg. Use: L for each 100 km.
//!
//! # Source
//! Density at 20 °C and where it begins to freeze: ISO 22241-1. Use: 3 to 7 per cent of the diesel, as
//! several public pages print it; none of them measured.
//!
//! # Error band
//! That of the share, which is wide: load, hills, cold and the engine change it. What a dash counts
//! down may run out by a fifth sooner: common practice, no source.

use super::Between;

/// Of the diesel, by volume. Source: several public pages (3 to 7, 4 to 6, 3 to 4 per cent).
pub const SHARE_OF_DIESEL: Between = Between { lower: 0.03, upper: 0.07 };
/// What a litre weighs at 20 °C. Unit: kg/L. Source: ISO 22241-1.
pub const KG_PER_L: Between = Between { lower: 1.087, upper: 1.093 };
/// Where it begins to freeze. Unit: °C. Source: ISO 22241-1.
pub const FREEZES_C: f64 = -11.5;
/// How much of a countdown is left at the least. Common practice, no source.
const COUNTDOWN: Between = Between { lower: 0.8, upper: 1.0 };

/// What is used of it with so much diesel.
///
/// # Units
/// L for each 100 km.
#[must_use]
pub fn use_l_per_100_km(diesel_per_100_km: Between) -> Between {
    diesel_per_100_km * SHARE_OF_DIESEL
}

/// How far one still comes by the dash's countdown: never further than it says.
///
/// # Units
/// km.
#[must_use]
pub fn by_countdown_km(shown_km: f64) -> Between {
    COUNTDOWN * shown_km
}

/// What still fits in.
///
/// # Units
/// L.
#[must_use]
pub fn fits_l(left_l: Between, capacity_l: f64) -> Between {
    (Between::exactly(capacity_l) - left_l).at_least(0.0)
}

/// What it weighs.
///
/// # Units
/// L in, kg out.
#[must_use]
pub fn weighs_kg(litres: Between) -> Between {
    litres * KG_PER_L
}
