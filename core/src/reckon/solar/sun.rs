//! Where the sun stands, for how long, and what it would bring without any air.

use std::f64::consts::PI;

/// Unit: kW/m². Duffie and Beckman, Solar Engineering of Thermal Processes.
const SOLAR_CONSTANT: f64 = 1.367;
/// The upper edge of the sun on the horizon, refraction included. Unit: degrees.
const HORIZON_DEG: f64 = -0.833_3;
const MS_PER_DAY: i64 = 86_400_000;
/// Days from 1970-01-01 to 2000-01-01.
const DAYS_TO_2000: i64 = 10_957;

/// The sun as it stands on one day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sun {
    /// How far north of the equator it stands overhead. Unit: degrees.
    pub declination_deg: f64,
    /// How much stronger it is than on average, as the earth comes nearer. Factor.
    pub nearness: f64,
}

impl Sun {
    /// The sun at noon of a day.
    ///
    /// # Units
    /// `day`: days since 2000-01-01, of which the noon in Greenwich is meant.
    ///
    /// # Source
    /// The Astronomical Almanac's low-precision formulas, good to 0.01° from 1950 to 2050.
    #[must_use]
    pub fn on(day: i32) -> Self {
        let day = f64::from(day);
        let anomaly = (357.528 + 0.985_600_3 * day).to_radians();
        let longitude = 280.460
            + 0.985_647_4 * day
            + 1.915 * libm::sin(anomaly)
            + 0.020 * libm::sin(2.0 * anomaly);
        let tilt = (23.439 - 0.000_000_4 * day).to_radians();
        let declination = libm::asin(libm::sin(tilt) * libm::sin(longitude.to_radians()));
        let distance =
            1.000_14 - 0.016_71 * libm::cos(anomaly) - 0.000_14 * libm::cos(2.0 * anomaly);
        Self { declination_deg: declination.to_degrees(), nearness: 1.0 / (distance * distance) }
    }

    /// The sun on the day of an instant.
    ///
    /// # Units
    /// `utc_ms`: ms since 1970-01-01 UTC. Instants that no calendar has count as the first or last
    /// day that it has.
    #[must_use]
    pub fn at(utc_ms: i64) -> Self {
        let day = utc_ms.div_euclid(MS_PER_DAY).saturating_sub(DAYS_TO_2000);
        Self::on(i32::try_from(day).unwrap_or(if day < 0 { i32::MIN } else { i32::MAX }))
    }
}

/// The angle through which the sun turns from noon until it stands at an elevation: 0 where it never
/// comes up to it, π where it never goes down to it.
fn half_day(latitude_deg: f64, sun: &Sun, elevation_deg: f64) -> f64 {
    let latitude = latitude_deg.clamp(-90.0, 90.0).to_radians();
    let declination = sun.declination_deg.to_radians();
    let level = libm::sin(latitude) * libm::sin(declination);
    let turning = libm::cos(latitude) * libm::cos(declination);
    let cosine = (libm::sin(elevation_deg.to_radians()) - level) / turning;
    libm::acos(cosine.clamp(-1.0, 1.0))
}

/// From sunrise to sunset.
///
/// # Units
/// `latitude_deg`: −90 (south) to 90. Hours, 0 to 24.
///
/// # Source
/// The sunrise equation with the sun's upper edge and refraction. Two minutes or less off to 60°.
///
/// # Example
/// ```
/// use stowfast_core::reckon::solar::{Sun, day_length_h};
///
/// // 21 June 2025 at 51.5 degrees north.
/// assert!((day_length_h(51.5, &Sun::on(9_303)) - 16.640).abs() < 2.0 / 60.0);
/// ```
#[must_use]
pub fn day_length_h(latitude_deg: f64, sun: &Sun) -> f64 {
    24.0 / PI * half_day(latitude_deg, sun, HORIZON_DEG)
}

/// How high the sun stands at noon.
///
/// # Units
/// Degrees above the horizon; below 0 where it does not rise.
///
/// # Source
/// 90° less the latitude's distance from where it stands overhead: definition.
#[must_use]
pub fn noon_elevation_deg(latitude_deg: f64, sun: &Sun) -> f64 {
    90.0 - (latitude_deg.clamp(-90.0, 90.0) - sun.declination_deg).abs()
}

/// What would fall on flat ground in a day if there were no air.
///
/// # Units
/// kWh/m² a day.
///
/// # Source
/// Duffie and Beckman, Solar Engineering of Thermal Processes, daily extraterrestrial radiation on a
/// horizontal surface.
#[must_use]
pub fn above_the_air_kwh_m2(latitude_deg: f64, sun: &Sun) -> f64 {
    let (latitude, declination) =
        (latitude_deg.clamp(-90.0, 90.0).to_radians(), sun.declination_deg.to_radians());
    let sunset = half_day(latitude_deg, sun, 0.0);
    let turning = libm::cos(latitude) * libm::cos(declination) * libm::sin(sunset);
    let level = sunset * libm::sin(latitude) * libm::sin(declination);
    (24.0 / PI * SOLAR_CONSTANT * sun.nearness * (turning + level)).max(0.0)
}
