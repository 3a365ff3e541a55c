//! What stays of a mixture as vapour is drawn from it.

use super::{BUTANE_KG_PER_KMOL, Between, PROPANE_KG_PER_KMOL, Pure, flows, needs_by_mole};

/// The warmest that gas was drawn at before tonight. Unit: °C. Common practice, no source.
const DRAWN_C: f64 = 40.0;

/// The share of propane that is left in the liquid once some of it was drawn as vapour.
///
/// # Model
/// Rayleigh at one volatility: `ln(n/n0) = (ln(x/x0) + α ln((1-x0)/(1-x))) / (α-1)`, n and x in moles,
/// α how many times as readily propane leaves as butane (their vapour pressures).
///
/// # Units
/// `by_mole`: moles of propane in a mole at first, 0 to 1. `left`: mass left of the mass at first, 0 to 1.
/// `celsius`: of the liquid. Result: moles of propane in a mole of what is left; 0 once nothing is.
#[must_use]
pub fn share_left(by_mole: f64, left: f64, celsius: f64) -> f64 {
    let first = by_mole.clamp(0.0, 1.0);
    let left = left.clamp(0.0, 1.0);
    if first <= 0.0 || first >= 1.0 || left >= 1.0 {
        return first;
    }
    // The less propane, the less is left: halve until the mass agrees.
    let (mut poor, mut rich) = (0.0, first);
    for _ in 0..100 {
        let middle = f64::midpoint(poor, rich);
        if mass_left(first, middle, celsius) < left {
            poor = middle;
        } else {
            rich = middle;
        }
    }
    f64::midpoint(poor, rich)
}

/// How much of a cylinder is left over when its gas no longer flows at that temperature.
///
/// # Units
/// As of [`share_left`]. `needed`: moles of propane in a mole from which on it flows. Result: mass left of
/// the mass at first, 0 to 1: 0 where all of it flows, 1 where none does.
#[must_use]
pub fn left_over(by_mole: f64, needed: f64, celsius: f64) -> f64 {
    if needed <= 0.0 {
        return 0.0;
    }
    if by_mole <= needed {
        return 1.0;
    }
    if by_mole >= 1.0 {
        return 0.0;
    }
    mass_left(by_mole, needed, celsius)
}

/// The share of propane in what is left of a cylinder, drawn at tonight's low or warmer: the colder, the
/// more of the propane left first.
///
/// # Units
/// As of [`share_left`]; `low_c`: tonight's low, °C.
#[must_use]
pub fn by_mole_left(by_mole: f64, left: Between, low_c: f64) -> Between {
    let warm_c = low_c.max(DRAWN_C);
    Between::of(share_left(by_mole, left.lower, low_c), share_left(by_mole, left.upper, warm_c))
}

/// What still comes out of a cylinder at tonight's low.
///
/// # Units
/// `left`: mass left of the mass at first, 0 to 1, and so is the result. `low_c`: °C.
#[must_use]
pub fn comes_out(by_mole: f64, left: Between, low_c: f64) -> Between {
    let [cold, warm] = ends(by_mole, low_c);
    Between::of(left.lower - cold(left.lower), left.upper - warm(left.upper))
}

/// What stays in it then.
///
/// # Units
/// As of [`comes_out`].
#[must_use]
pub fn stays(by_mole: f64, left: Between, low_c: f64) -> Between {
    let [cold, warm] = ends(by_mole, low_c);
    // Of what was drawn in warmth less stays of a well filled one than of one half empty.
    Between::of(warm(left.lower).min(warm(left.upper)), cold(left.upper))
}

/// What stays of so much that is left: at the most, drawn at tonight's low; at the least, drawn in warmth.
fn ends(by_mole: f64, low_c: f64) -> [impl Fn(f64) -> f64; 2] {
    // A pure gas flows or does not: its pressure has no band.
    let needed = match flows(by_mole, low_c) {
        Some(true) if by_mole >= 1.0 => Between::exactly(0.0),
        _ => needs_by_mole(low_c),
    };
    [(low_c, needed.upper), (low_c.max(DRAWN_C), needed.lower)].map(|(drawn_c, needed)| {
        move |left: f64| left * left_over(share_left(by_mole, left, drawn_c), needed, low_c)
    })
}

/// The mass that is left once the liquid has come from one share of propane to a smaller one.
fn mass_left(first: f64, now: f64, celsius: f64) -> f64 {
    if now <= 0.0 {
        return 0.0;
    }
    let volatility = Pure::Propane.vapour_kpa(celsius) / Pure::Butane.vapour_kpa(celsius);
    let moles = (libm::log(now / first) + volatility * libm::log((1.0 - first) / (1.0 - now)))
        / (volatility - 1.0);
    libm::exp(moles) * mass_of_a_mole(now) / mass_of_a_mole(first)
}

fn mass_of_a_mole(by_mole: f64) -> f64 {
    by_mole * PROPANE_KG_PER_KMOL + (1.0 - by_mole) * BUTANE_KG_PER_KMOL
}
