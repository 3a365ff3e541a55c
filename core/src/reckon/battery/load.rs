//! What draws on a battery in a day.

use super::{Capacity, is_lead};
use crate::reckon::Between;
use crate::reserve::chemistry::Chemistry;

const H_PER_DAY: f64 = 24.0;
/// What an inverter makes of what it takes. Share. Common practice, no source.
const INVERTER: Between = Between { lower: 0.80, upper: 0.93 };

/// Something that draws, by the day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Load {
    /// What it draws while it runs. Unit: A, ≥ 0.
    pub current_a: Between,
    /// How long it runs. Unit: hours a day, 0 to 24.
    pub hours: f64,
}

impl Load {
    /// From watts on the battery's side.
    ///
    /// # Units
    /// `power_w`: W, ≥ 0. `hours`: a day, 0 to 24.
    #[must_use]
    pub fn of_watts(power_w: Between, hours: f64, chemistry: Chemistry) -> Self {
        Self { current_a: power_w / volts(chemistry), hours }
    }

    /// What it takes in a day, whatever else runs.
    ///
    /// # Units
    /// Ah.
    #[must_use]
    pub fn day_ah(&self) -> Between {
        self.current_a * self.hours
    }
}

/// A battery's volts while it is used, from its floor to full.
///
/// # Units
/// V.
///
/// # Source
/// Lead: 12.0 V under load at half charge to 12.7 V when full and little is drawn. Lithium iron
/// phosphate: from its chart, 12.8 V at a fifth to 13.4 V at nine tenths. Common practice, no source.
#[must_use]
pub fn volts(chemistry: Chemistry) -> Between {
    if is_lead(chemistry) { Between::of(12.0, 12.7) } else { Between::of(12.8, 13.4) }
}

/// What an inverter takes from the battery for something that needs mains.
///
/// # Units
/// W: what it feeds, and what it takes by itself while it is on.
///
/// # Source
/// Efficiency of 80 to 93 %: common practice, no source. Its own draw: the pack, or whoever read it.
#[must_use]
pub fn inverted_w(mains_w: f64, standby_w: f64) -> Between {
    Between::exactly(mains_w) / INVERTER + Between::exactly(standby_w)
}

/// What all loads take out of a battery in a day, at the rated current's worth.
///
/// A current above the rated one counts for more by Peukert's law, one below it for no less. Nobody
/// says what runs at the same time: it costs least where all is spread evenly over the day, and most
/// where everything runs together as long as it runs at all; a sum of convex costs has its ends there.
///
/// # Units
/// Ah a day.
///
/// # Source
/// Peukert's law for each stretch of the day; the two ends: Jensen's inequality, and that of sums of
/// variables which rise together.
#[must_use]
pub fn drawn_ah(loads: &[Load], capacity: &Capacity) -> Between {
    let rated_a = capacity.rated_a();
    let least: f64 = loads.iter().map(|one| one.day_ah().lower).sum();
    let spread = H_PER_DAY * counts(least / H_PER_DAY, rated_a, capacity.exponent.lower);
    let mut by_hours: Vec<(f64, f64)> =
        loads.iter().map(|one| (one.hours, one.current_a.upper)).collect();
    by_hours.sort_by(|one, other| one.0.total_cmp(&other.0));
    let mut on_a: f64 = by_hours.iter().map(|one| one.1).sum();
    let (mut from, mut together) = (0.0, 0.0);
    for (hours, current_a) in by_hours {
        together += (hours - from) * counts(on_a, rated_a, capacity.exponent.upper);
        (from, on_a) = (hours, on_a - current_a);
    }
    Between { lower: spread, upper: together.max(spread) }
}

/// At which rate a current takes from what the plate says.
fn counts(current_a: f64, rated_a: f64, exponent: f64) -> f64 {
    current_a * libm::pow((current_a / rated_a).max(1.0), exponent - 1.0)
}
