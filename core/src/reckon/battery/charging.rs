//! How a battery is charged again: at the source's own current first, then slower and slower.

use super::{Day, NIGHTS_MAX, is_lead};
use crate::reckon::Between;
use crate::reserve::chemistry::Chemistry;

/// How a battery takes charge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Acceptance {
    /// Up to this charge it takes all that its source gives. Share.
    pub all_to: f64,
    /// What is left then takes so long, however strong the source. Unit: h.
    pub rest_h: Between,
    /// What stays of what is put in. Share.
    pub stays: Between,
}

/// How a battery takes charge.
///
/// # Source
/// Lead: all of the current to about 70 %, the rest in 7 to 10 h, ±20 %: a student's design report and
/// a battery tutorial (the 70 % from memory). Lithium iron phosphate: all to about 95 %, the rest
/// within two hours; what stays, 80 to 95 % of lead and 95 to 100 % of lithium: common practice, no
/// source.
#[must_use]
pub fn acceptance(chemistry: Chemistry) -> Acceptance {
    if is_lead(chemistry) {
        let (rest_h, stays) = (Between::of(7.0, 10.0), Between::of(0.80, 0.95));
        Acceptance { all_to: 0.70, rest_h, stays }
    } else {
        let (rest_h, stays) = (Between::of(0.5, 2.0), Between::of(0.95, 1.0));
        Acceptance { all_to: 0.95, rest_h, stays }
    }
}

/// How long it takes to a charge.
///
/// # Units
/// `capacity_ah`: Ah. `from`, `to`: share, 0 to 1. `current_a`: A from the source less what is drawn
/// meanwhile. Hours; `None` where no current is left.
///
/// # Source
/// See [`acceptance`].
#[must_use]
pub fn charge_h(
    chemistry: Chemistry,
    capacity_ah: Between,
    from: Between,
    to: f64,
    current_a: Between,
) -> Option<Between> {
    if current_a.lower <= 0.0 || capacity_ah.lower <= 0.0 {
        return None;
    }
    let takes = acceptance(chemistry);
    let fast = current_a * takes.stays / capacity_ah;
    let hours = |from: f64, rate: f64, rest_h: f64| {
        let bulk = (to.min(takes.all_to) - from).max(0.0) / rate;
        let rest = (to - from.max(takes.all_to)).max(0.0);
        bulk + rest / slow(takes, rate, rest_h)
    };
    Some(Between {
        lower: hours(from.upper, fast.upper, takes.rest_h.lower),
        upper: hours(from.lower, fast.lower, takes.rest_h.upper),
    })
}

/// For how much of the time from sunrise to sunset the sun gives all that a nearly full battery takes. Share;
/// common practice, no source.
const STRONG: Between = Between { lower: 0.5, upper: 1.0 };

/// How long the sun takes to charge it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ByDays {
    /// Unit: days; [`NIGHTS_MAX`] stands for so many or more. `None` where it never does.
    pub least: Option<f64>,
    /// Unit: days, whole. `None` where it may never, or only after [`NIGHTS_MAX`].
    pub most: Option<f64>,
}

/// How many days of sun charge it until it is full, beside what is drawn each day. A day counts as far as the
/// sun has shone.
///
/// At best it is full of an evening, before the night takes its part; at worst all is drawn from what the
/// sun put in.
///
/// # Units
/// `full_ah`: Ah. `from`: share, 0 to 1. `day_h`: from sunrise to sunset, h.
///
/// # Source
/// Balance, as of [`super::ahead`]; what a nearly full battery takes: [`acceptance`].
#[must_use]
pub fn charge_days(
    chemistry: Chemistry,
    full_ah: Between,
    from: Between,
    day: Day,
    day_h: Between,
) -> ByDays {
    let takes = acceptance(chemistry);
    let (gained, drawn) = (day.gained_ah, day.drawn_ah);
    let slow = |hours: f64, rest_h: f64| (1.0 - takes.all_to) / rest_h * hours;
    let run = |from: f64, net: f64, rest: f64| {
        let bulk = (takes.all_to - from).max(0.0);
        let slowly = (1.0 - from.max(takes.all_to)).max(0.0);
        // What is not needed takes no time, however little comes in.
        let days = |share: f64, a_day: f64| if share > 0.0 { share / a_day } else { 0.0 };
        let comes = net > 0.0 && (rest > 0.0 || slowly <= 0.0);
        comes.then(|| days(bulk, net) + days(slowly, rest))
    };
    let strong_h = STRONG * day_h;
    let (lacks, brings) = (1.0 - from.upper, gained.upper / full_ah.lower);
    let at_once = (lacks <= brings).then(|| if lacks > 0.0 { lacks / brings } else { 0.0 });
    let best = (gained.upper - drawn.lower) / full_ah.lower;
    let rest = best.min(slow(strong_h.upper, takes.rest_h.lower));
    let least = at_once.or_else(|| run(from.upper + drawn.lower / full_ah.lower, best, rest));
    let worst = (gained.lower - drawn.upper) / full_ah.upper;
    let most_drawn = drawn.upper / full_ah.lower;
    let rest = worst.min(slow(strong_h.lower, takes.rest_h.upper) - most_drawn);
    // What differs from a whole day by less than a float can tell is that one.
    let most = run(from.lower, worst, rest).map(|days| (days - 1e-9).max(0.0).ceil());
    let max = f64::from(NIGHTS_MAX);
    ByDays { least: least.map(|days| days.min(max)), most: most.filter(|days| *days <= max) }
}

/// How far it is charged after some hours.
///
/// # Units
/// As of [`charge_h`]. Share; never less than it was.
#[must_use]
pub fn level_after(
    chemistry: Chemistry,
    capacity_ah: Between,
    from: Between,
    hours: f64,
    current_a: Between,
) -> Between {
    let takes = acceptance(chemistry);
    let fast = current_a.at_least(0.0) * takes.stays / capacity_ah;
    let level = |from: f64, rate: f64, rest_h: f64| {
        let bulk = (takes.all_to - from).max(0.0).min(rate * hours);
        let bulk_h = if rate > 0.0 { bulk / rate } else { hours };
        let rest = slow(takes, rate, rest_h) * (hours - bulk_h).max(0.0);
        (from + bulk + rest).min(1.0)
    };
    Between {
        lower: level(from.lower, fast.lower, takes.rest_h.upper),
        upper: level(from.upper, fast.upper, takes.rest_h.lower),
    }
}

/// What goes in once the battery holds back, or all that the source gives if that is less. Share an
/// hour.
fn slow(takes: Acceptance, rate: f64, rest_h: f64) -> f64 {
    ((1.0 - takes.all_to) / rest_h).min(rate)
}

/// The charging volts that a 12 V lead battery needs at a temperature of its cells.
///
/// # Units
/// `cells_c`: °C. V at the terminals.
///
/// # Source
/// 2.40 V a cell at 25 °C, 3 mV less a cell for each °C more: a battery tutorial. ±0.06 V (others give
/// 3 to 5 mV). The battery maker's own figure goes before it.
#[must_use]
pub fn absorption_v(cells_c: f64) -> f64 {
    const CELLS: f64 = 6.0;
    CELLS * (2.40 - 0.003 * (cells_c - 25.0))
}
