//! The whole small units of the reserves as numbers to reckon with.

const MS_PER_MIN: i64 = 60_000;
const MIN_PER_DAY: f64 = 1_440.0;

/// A whole number as a float; what lies beyond what a reading can be counts as that.
pub(super) fn small(amount: i64) -> f64 {
    let most = if amount < 0 { i32::MIN } else { i32::MAX };
    f64::from(i32::try_from(amount).unwrap_or(most))
}

/// A time in days, to whole minutes.
pub(super) fn days(ms: i64) -> f64 {
    small(ms.div_euclid(MS_PER_MIN)) / MIN_PER_DAY
}
