//! Wind: what the forecast's number means for what stands out of the vehicle.
//!
//! # Model
//! A Beaufort number is a range of the mean wind over ten minutes. A gust presses with
//! `q = 0.613 v²`.
//!
//! # Units
//! Speeds: m/s. Pressure: Pa, which is N to the m².
//!
//! # Source
//! Ranges: the Beaufort scale as a national weather service prints it, lower ends to a tenth.
//! Pressure: BS 6399-2, clause 2.1.2.1.
//!
//! # Error band
//! How the air flows round an awning is not reckoned: half to twice the flat pressure, common
//! practice, no source. Gusts of 1.3 to 2 times the mean where no gust is forecast: common practice,
//! no source.

use super::Between;

/// Where each Beaufort number begins. Unit: m/s.
const BEGINS_MS: [f64; 13] =
    [0.0, 0.3, 1.6, 3.4, 5.5, 8.0, 10.8, 13.9, 17.2, 20.8, 24.5, 28.5, 32.7];
/// What is reckoned as the most, where the scale has no end. Unit: m/s. Common practice, no source.
const MOST_MS: f64 = 50.0;
/// Pa for each (m/s)². Source: BS 6399-2.
const PRESSURE: f64 = 0.613;
/// How much more than the mean a gust is.
const GUST: Between = Between { lower: 1.3, upper: 2.0 };
/// How much of the flat pressure a cloth feels.
const CLOTH: Between = Between { lower: 0.5, upper: 2.0 };

/// Standard gravity. Unit: m/s². Source: ISO 80000-3.
const GRAVITY: f64 = 9.806_65;

/// The mean wind of a Beaufort number, from its beginning up to the next.
///
/// # Units
/// `beaufort`: 0 to 12; what lies above counts as 12. Result: m/s.
#[must_use]
pub fn mean_ms(beaufort: usize) -> Between {
    let last = BEGINS_MS.len().saturating_sub(1);
    let at = beaufort.min(last);
    let begins = |at: usize| BEGINS_MS.get(at).copied().unwrap_or(MOST_MS);
    Between::of(begins(at), begins(at.saturating_add(1)))
}

/// The Beaufort number of a mean wind.
///
/// # Units
/// `speed_ms`: m/s, ≥ 0.
#[must_use]
pub fn beaufort(speed_ms: f64) -> usize {
    BEGINS_MS.iter().filter(|begins| **begins <= speed_ms).count().saturating_sub(1)
}

/// The gusts that come with a mean wind, where none are forecast.
///
/// # Units
/// m/s.
#[must_use]
pub fn gust_ms(mean_ms: Between) -> Between {
    mean_ms * GUST
}

/// How hard a wind presses on what stands across it.
///
/// # Units
/// `speed_ms`: m/s, ≥ 0. Result: Pa.
#[must_use]
pub fn pressure_pa(speed_ms: f64) -> f64 {
    PRESSURE * speed_ms * speed_ms
}

/// How hard it pulls at a cloth.
///
/// # Units
/// `speed_ms`: m/s, ≥ 0. `area_m2`: m², ≥ 0. Result: N.
#[must_use]
pub fn pull_n(speed_ms: Between, area_m2: f64) -> Between {
    speed_ms.through(pressure_pa) * CLOTH * area_m2
}

/// The mass that pulls as hard by its weight.
///
/// # Units
/// `pull_n`: N. The result: kg.
#[must_use]
pub fn weight_kg(pull_n: Between) -> Between {
    pull_n.through(|newtons| newtons / GRAVITY)
}

#[cfg(test)]
mod tests {
    use super::{Between, beaufort, gust_ms, mean_ms, pull_n, weight_kg};

    #[test]
    fn each_number_is_told_from_its_own_range() {
        for number in 0..=12 {
            let mean = mean_ms(number);
            assert_eq!(beaufort(mean.lower), number);
            assert_eq!(beaufort(mean.upper - 1e-9), number.min(12));
        }
    }

    #[test]
    fn a_kilogram_weighs_as_much_as_standard_gravity_says() {
        let kg = weight_kg(Between::of(9.806_65, 980.665));
        assert!((kg.lower - 1.0).abs() < 1e-9 && (kg.upper - 100.0).abs() < 1e-9, "{kg:?}");
    }

    #[test]
    fn more_wind_never_pulls_less() {
        for pair in (0..=12)
            .map(|number| pull_n(gust_ms(mean_ms(number)), 7.5))
            .collect::<Vec<_>>()
            .windows(2)
        {
            assert!(pair[0].lower <= pair[1].lower && pair[0].upper <= pair[1].upper);
        }
    }
}
