//! Tyres: whether a pressure that was measured is the one that is recorded, what warmth does to it, and
//! how old a tyre is. What pressure is right is never reckoned.
//!
//! # Model
//! Air in a tyre of one size: its absolute pressure goes with its absolute temperature (the law of
//! Amontons).
//!
//! # Units
//! Pressures: bar above the air's. Temperatures: °C. Ages: years.
//!
//! # Source
//! The gas law; standard pressure of the air, 1.013 25 bar, by definition. Week and year after DOT:
//! common practice, no source.
//!
//! # Error band
//! A hand gauge: 0.1 bar, common practice, no source.

use super::Between;

/// How far a gauge may be out. Unit: bar. Common practice, no source.
pub const GAUGE_BAR: f64 = 0.1;
/// Standard pressure of the air. Unit: bar. Source: definition.
const AIR_BAR: f64 = 1.013_25;
/// 0 °C. Unit: K. Source: definition.
const ICE_K: f64 = 273.15;
/// Which colds a tyre may have been filled at. Unit: °C.
const COLD_C: Between = Between { lower: -10.0, upper: 30.0 };
const WEEKS: u32 = 53;
const DAYS_A_WEEK: f64 = 7.0;
const DAYS_A_YEAR: f64 = 365.25;

/// How a pressure stands to the one that is recorded.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Against {
    /// Below it, however far the gauge is out.
    Low,
    /// It may be the same.
    Same,
    /// Above it, however far the gauge is out.
    High,
}

/// A measured pressure against the recorded one.
///
/// # Units
/// bar.
#[must_use]
pub fn against(measured_bar: f64, recorded_bar: f64) -> Against {
    const HAIR: f64 = 1e-9;
    match measured_bar - recorded_bar {
        off if off < -GAUGE_BAR - HAIR => Against::Low,
        off if off > GAUGE_BAR + HAIR => Against::High,
        _ => Against::Same,
    }
}

/// The pressure of a tyre at another temperature.
///
/// # Units
/// `bar`: above the air's. Temperatures: °C of the air in it. Result: bar above the air's.
#[must_use]
pub fn at_temperature_bar(bar: f64, from_c: f64, to_c: f64) -> f64 {
    (bar + AIR_BAR) * (to_c + ICE_K) / (from_c + ICE_K) - AIR_BAR
}

/// How much a tyre shows more when it is so many degrees warmer than it was filled.
///
/// # Units
/// `bar`: as it was filled. `by_c`: °C, ≥ 0. Result: bar.
#[must_use]
pub fn rise_bar(bar: f64, by_c: f64) -> Between {
    COLD_C.through(|cold_c| at_temperature_bar(bar, cold_c, cold_c + by_c) - bar)
}

/// How old a tyre is, by the last four digits after DOT; `None` for no week, or one to come.
///
/// # Units
/// `code`: week and year of the century, 2321 is week 23 of 2021. `year`, `day`: today, the day of the
/// year from 1. Result: years.
#[must_use]
pub fn age_years(code: u32, year: u32, day: u32) -> Option<Between> {
    let (week, made) = (code.checked_div(100)?, code.checked_rem(100)?);
    if !(1..=WEEKS).contains(&week) {
        return None;
    }
    let since = |week: u32| {
        let years = f64::from(year) - f64::from(made) - 2_000.0;
        years + (f64::from(day) - f64::from(week) * DAYS_A_WEEK) / DAYS_A_YEAR
    };
    let age = Between::of(since(week), since(week.saturating_sub(1)));
    (age.upper >= 0.0).then(|| age.at_least(0.0))
}

#[cfg(test)]
mod tests {
    use super::{Against, against, age_years};

    #[test]
    fn what_a_gauge_may_hide_is_no_difference() {
        assert_eq!(against(4.65, 4.75), Against::Same);
        assert_eq!(against(4.64, 4.75), Against::Low);
        assert_eq!(against(4.86, 4.75), Against::High);
    }

    #[test]
    fn an_age_is_told_to_the_week() {
        let age = age_years(2321, 2026, 331).unwrap();
        assert!(age.lower > 5.4 && age.upper < 5.5 && age.lower < age.upper, "{age:?}");
        assert_eq!(age_years(5421, 2026, 331), None);
        assert_eq!(age_years(20, 2026, 331), None);
        assert_eq!(age_years(5126, 2026, 331), None);
    }
}
