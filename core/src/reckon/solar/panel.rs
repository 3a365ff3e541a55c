//! From the sky to what a panel brings.

use serde::Serialize;

use super::sun::{Sun, above_the_air_kwh_m2, noon_elevation_deg};
use crate::reckon::Between;
use crate::reckon::battery::{acceptance, is_lead};
use crate::reserve::chemistry::Chemistry;

/// How a day's sky is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Sky {
    /// Sun all day.
    Clear,
    /// Sun and clouds.
    Broken,
    /// Grey all day.
    Overcast,
}

/// What a cloudless sky lets through: so much, …
const CLEAR: Between = Between { lower: 0.55, upper: 0.77 };
/// … less for the length of the sun's way through the air, at noon.
const AIR: f64 = 0.09;

/// What panel, wiring and regulator make of what falls on it: 75 to 85 %, common practice, no source.
///
/// # Units
/// Share.
#[must_use]
pub fn performance() -> Between {
    Between::of(0.75, 0.85)
}

/// The share of what the sun brings above the air that reaches flat ground in a day.
///
/// # Units
/// `noon_deg`: the sun's elevation at noon. Share, 0 to 1.
///
/// # Source
/// Clear: c·exp(−0.09 / sin elevation), with c from 0.55 to 0.77, so that it holds every monthly mean
/// of a clear-sky model (Ineichen's with the turbidity of places) from 40 to 60° north. Of that, broken
/// cloud leaves 50 to 90 % and an overcast day 10 to 35 %: Kasten and Czeplak 1980, from memory.
#[must_use]
pub fn clearness(sky: Sky, noon_deg: f64) -> Between {
    let height = libm::sin(noon_deg.to_radians());
    let air = if height > 0.0 { libm::exp(-AIR / height) } else { 0.0 };
    let left = match sky {
        Sky::Clear => Between::exactly(1.0),
        Sky::Broken => Between::of(0.5, 0.9),
        Sky::Overcast => Between::of(0.1, 0.35),
    };
    CLEAR * air * left
}

/// What a flat panel brings in a day.
///
/// # Units
/// `panel_wp`: Wp, ≥ 0. `above_kwh_m2`: kWh/m² a day without air. `clearness`: share. Wh a day.
///
/// # Source
/// Definition of the watt peak: 1 kWh/m² gives 1 Wh for each, times [`performance`].
#[must_use]
pub fn flat_wh(panel_wp: f64, above_kwh_m2: f64, clearness: Between) -> Between {
    clearness * performance() * (panel_wp * above_kwh_m2)
}

/// What a flat panel brings on one day under a sky.
///
/// # Units
/// Degrees north, Wp; Wh a day.
#[must_use]
pub fn day_wh(latitude_deg: f64, sun: &Sun, sky: Sky, panel_wp: f64) -> Between {
    let clearness = clearness(sky, noon_elevation_deg(latitude_deg, sun));
    flat_wh(panel_wp, above_the_air_kwh_m2(latitude_deg, sun), clearness)
}

/// What that puts into a 12 V battery, as charge that can be taken out again.
///
/// What goes straight to a load loses nothing on the way; what is charged first loses what does not
/// stay.
///
/// # Units
/// Wh a day, Ah a day.
///
/// # Source
/// Charging volts, lead 12.7 to 14.4 V and lithium iron phosphate 13.3 to 14.4 V: common practice, no
/// source.
#[must_use]
pub fn charge_ah(day_wh: Between, chemistry: Chemistry) -> Between {
    let least_v = if is_lead(chemistry) { 12.7 } else { 13.3 };
    let stays = Between::of(acceptance(chemistry).stays.lower, 1.0);
    day_wh * stays / Between::of(least_v, 14.4)
}
