//! Fuel: how far it goes, and what a diesel heater burns of it.
//!
//! # Model
//! What is in the tank over what is used in 100 km. A heater burns its heat over what a litre gives and
//! the share of it that reaches the room; it stops where the tank falls to its floor.
//!
//! # Units
//! Fuel: L. Use: L for each 100 km, L/h. Distances: km. Heat: kW.
//!
//! # Source
//! Heat of mineral diesel, 11.954 kWh/kg net at 0.830 kg/L: UK Government GHG Conversion Factors 2023.
//!
//! # Error band
//! A gauge: 10 per cent of the tank; litres that are told: 5 per cent; what is used on the road: 15 per
//! cent, by hills, wind and speed; what a heater is said to burn: 10 per cent. All common practice, no
//! source.

use super::Between;
use super::load::DIESEL_KG_PER_L;

/// Heat from a kilogram of diesel, water leaving as vapour. Unit: kWh. Source: UK Government GHG
/// Conversion Factors 2023.
pub const NET_KWH_PER_KG: f64 = 11.954;
/// How much of that reaches the room: from memory, to be checked.
pub const HEATER_EFFICIENCY: Between = Between { lower: 0.75, upper: 0.95 };
/// How far a gauge may be out, of the whole tank. Common practice, no source.
const GAUGE_SHARE: f64 = 0.1;
/// How far a number of litres may be out that is told. Common practice, no source.
const TOLD_SHARE: f64 = 0.05;
/// How far the use on the road may differ from the usual one. Common practice, no source.
const ROAD_SHARE: f64 = 0.15;
/// How far a heater's use may differ from what its manual says. Common practice, no source.
const DRAW_SHARE: f64 = 0.1;
const PER_KM: f64 = 100.0;

/// What is in a tank by its gauge.
///
/// # Units
/// `share`: 0 to 1. `capacity_l`: L. Result: L.
#[must_use]
pub fn by_gauge_l(share: f64, capacity_l: f64) -> Between {
    let share = Between::of(share - GAUGE_SHARE, share + GAUGE_SHARE);
    share.at_least(0.0).at_most(1.0) * capacity_l
}

/// What is in a tank where litres are told; no more than it holds, where that is known.
///
/// # Units
/// L.
#[must_use]
pub fn told_l(litres: f64, capacity_l: Option<f64>) -> Between {
    let left = Between::about(litres, TOLD_SHARE);
    capacity_l.map_or(left, |most| left.at_most(most))
}

/// What is used on the road, hills and wind included.
///
/// # Units
/// L for each 100 km.
#[must_use]
pub fn use_l_per_100_km(usual: f64) -> Between {
    Between::about(usual, ROAD_SHARE)
}

/// How far some litres go.
///
/// # Units
/// `litres`: L, ≥ 0. `per_100_km`: L for each 100 km, > 0. Result: km.
#[must_use]
pub fn reaches_km(litres: Between, per_100_km: Between) -> Between {
    litres / per_100_km * PER_KM
}

/// What a distance takes.
///
/// # Units
/// `distance_km`: km, ≥ 0. `per_100_km`: L for each 100 km. Result: L.
#[must_use]
pub fn takes_l(distance_km: f64, per_100_km: Between) -> Between {
    per_100_km * (distance_km / PER_KM)
}

/// What a heater burns to give so much heat.
///
/// # Units
/// kW, ≥ 0, in; L/h out. `efficiency`: above 0, up to 1.
#[must_use]
pub fn draw_l_per_h(heat_kw: f64, efficiency: Between) -> Between {
    Between::exactly(heat_kw) / (efficiency * (NET_KWH_PER_KG * DIESEL_KG_PER_L))
}

/// What a heater burns where its manual says it.
///
/// # Units
/// L/h.
#[must_use]
pub fn stated_l_per_h(litres_an_hour: f64) -> Between {
    Between::about(litres_an_hour, DRAW_SHARE)
}

/// What a heater burns: what its manual says goes before what its heat takes.
///
/// # Units
/// L/h and kW in, ≥ 0; L/h out; `None` where neither is known.
#[must_use]
pub fn heater_l_per_h(litres_an_hour: Option<f64>, heat_kw: Option<f64>) -> Option<Between> {
    let by_heat = heat_kw.map(|kw| draw_l_per_h(kw, HEATER_EFFICIENCY));
    litres_an_hour.map(stated_l_per_h).or(by_heat)
}

/// For how many nights there is heat until a floor is reached.
///
/// # Units
/// L; `a_night_l` > 0. Result: nights, not whole ones.
#[must_use]
pub fn nights(left_l: Between, floor_l: f64, a_night_l: Between) -> Between {
    (left_l - Between::exactly(floor_l)).at_least(0.0) / a_night_l
}

/// What is left when so many nights were heated; where the floor is reached before, the heater stops
/// there and what was below it stays.
///
/// # Units
/// L.
#[must_use]
pub fn after_l(left_l: Between, floor_l: f64, burnt_l: Between) -> Between {
    let after = |left: f64, burnt: f64| (left - burnt).max(left.min(floor_l));
    Between::of(after(left_l.lower, burnt_l.upper), after(left_l.upper, burnt_l.lower))
}

#[cfg(test)]
mod tests {
    use super::{Between, after_l, by_gauge_l, nights, told_l};

    #[test]
    fn a_tank_holds_no_more_than_it_does() {
        assert_eq!(by_gauge_l(0.95, 90.0).upper.to_bits(), 90.0_f64.to_bits());
        assert_eq!(by_gauge_l(0.05, 90.0).lower.to_bits(), 0.0_f64.to_bits());
        assert!(told_l(88.0, Some(90.0)).upper <= 90.0);
        assert!(told_l(88.0, None).upper > 92.0);
    }

    #[test]
    fn a_heater_takes_nothing_below_its_floor() {
        let left = Between::of(10.0, 30.0);
        assert_eq!(after_l(left, 20.0, Between::exactly(50.0)), Between::of(10.0, 20.0));
        assert_eq!(nights(left, 20.0, Between::of(2.0, 4.0)), Between::of(0.0, 5.0));
    }
}
