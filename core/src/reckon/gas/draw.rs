//! What stays of a mixture as vapour is drawn from it.

use super::{BUTANE_KG_PER_KMOL, PROPANE_KG_PER_KMOL, Pure};

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
