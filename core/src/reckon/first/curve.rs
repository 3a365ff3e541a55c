//! The chance that a reserve still holds, over the days since it was read.

use libm::{exp2, log};

use super::beta::share_and_step;
use super::rate::{Node, Rate};
use crate::reckon::Between;

/// The curve is worked out at so many points to each doubling of the time.
const TO_A_DOUBLING: f64 = 16.0;
/// From 2^-7 of a day, eleven minutes, to 2^12 days.
const DOUBLINGS: (f64, f64) = (-7.0, 12.0);
const PLACES: u32 = 305;
/// Below this chance it counts as ended.
const NEVER: f64 = 1e-9;
/// A band narrower than this share of its upper end counts as its middle.
const NARROW: f64 = 1e-4;

/// What was left when it was last read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Left {
    /// Until its end, anywhere in it alike; below 0 it has ended.
    pub amount: Between,
    /// For how long ago. Unit: days, ≥ 0.
    pub age_days: f64,
}

/// The chance over time, as a sum of hazards: minus its logarithm, rising.
#[derive(Debug, Clone, PartialEq)]
pub struct Curve {
    /// Since it was read, in days, with the sum; rising in both.
    points: Vec<(f64, f64)>,
    age_days: f64,
}

impl Curve {
    /// Of what is left and used.
    #[must_use]
    pub fn new(left: Left, rate: &Rate) -> Self {
        let mut points = Vec::new();
        let mut most: f64 = 0.0;
        let start = std::iter::once(0.0);
        let at = |place| exp2(DOUBLINGS.0 + f64::from(place) / TO_A_DOUBLING);
        for days in start.chain((0..PLACES).map(at)) {
            let holds = mean(left.amount, rate, days);
            most = most.max(-log(holds.max(NEVER)));
            points.push((days, most));
            if holds < NEVER {
                break;
            }
        }
        Self { points, age_days: left.age_days.max(0.0) }
    }

    /// The sum of hazards so many days from now, with the clock so much quicker from now on.
    pub(super) fn hazard(&self, days: f64, pace: f64) -> f64 {
        let days = self.age_days + days * pace;
        hazard_at(&self.points, days)
    }

    /// The chance that it still holds so many days from now.
    ///
    /// # Units
    /// `pace`: 1 as until now, 0.5 where half is used from now on, > 0.
    #[must_use]
    pub fn holds(&self, days: f64, pace: f64) -> f64 {
        libm::exp(-self.hazard(days, pace))
    }

    /// After how many days from now it has ended with that chance; 0 where it may have ended already,
    /// `None` beyond what is reckoned, 4096 days after it was read.
    #[must_use]
    pub fn ends_by(&self, chance: f64, pace: f64) -> Option<f64> {
        let days = reached(&self.points, chance)?;
        Some(((days - self.age_days) / pace).max(0.0))
    }
}

/// The sum of hazards after so many days, straight between two points of a course; as at its ends beyond.
pub(super) fn hazard_at(points: &[(f64, f64)], days: f64) -> f64 {
    let after = points.partition_point(|point| point.0 <= days);
    let before = after.checked_sub(1).and_then(|at| points.get(at)).copied();
    match (before, points.get(after).copied()) {
        (Some(from), Some(to)) => from.1 + (to.1 - from.1) * (days - from.0) / (to.0 - from.0),
        (Some(only), None) | (None, Some(only)) => only.1,
        (None, None) => 0.0,
    }
}

/// After how many days a course comes to that chance of an end; `None` beyond its last point.
pub(super) fn reached(points: &[(f64, f64)], chance: f64) -> Option<f64> {
    let wanted = -libm::log1p(-chance);
    let after = points.iter().position(|point| point.1 >= wanted)?;
    let to = points.get(after)?;
    let from = after.checked_sub(1).and_then(|at| points.get(at)).unwrap_or(to);
    let rise = to.1 - from.1;
    let share = if rise > 0.0 { (wanted - from.1) / rise } else { 0.0 };
    Some(from.0 + (to.0 - from.0) * share)
}

/// The chance that a level anywhere in a band lasts so many days.
fn mean(amount: Between, rate: &Rate, days: f64) -> f64 {
    if amount.upper <= 0.0 {
        return 0.0;
    }
    let wide = amount.upper - amount.lower;
    let each = |node: &Node| {
        let holds = if wide < NARROW * amount.upper {
            lasts(amount.middle(), rate, node, days).0
        } else {
            let over = |level| lasts(level, rate, node, days).1;
            (over(amount.upper) - over(amount.lower)) / wide
        };
        node.weight * holds
    };
    rate.nodes.iter().map(each).sum::<f64>().clamp(0.0, 1.0)
}

/// The chance that a level lasts so many days, and the sum of that over all levels below it.
fn lasts(level: f64, rate: &Rate, node: &Node, days: f64) -> (f64, f64) {
    if level <= 0.0 {
        return (0.0, 0.0);
    }
    if days <= 0.0 {
        return (1.0, level);
    }
    let shape = rate.even * days;
    let (holds, step) = share_and_step(shape, node.shape, level / (level + node.scale));
    let used = node.scale * shape / (node.shape - 1.0) * (holds - step).max(0.0);
    (holds, (level * holds - used).max(0.0))
}
