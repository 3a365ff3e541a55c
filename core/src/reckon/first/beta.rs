//! The regularised incomplete beta function, the same bits on every platform.

use libm::{exp, fabs, lgamma, log, log1p};

/// Where the continued fraction stands still.
const STILL: f64 = 1e-14;
const TERMS_MAX: u32 = 500;
/// What stands for 0 in a denominator.
const TINY: f64 = 1e-300;

/// The chance that a Beta(`a`, `b`) variable is no more than `x`.
///
/// # Units
/// `a` and `b` > 0. `x` is held to 0 to 1.
///
/// # Source
/// Continued fraction by Lentz's method. NIST Digital Library of Mathematical Functions 8.17.22 (from
/// memory, to be checked); held to closed forms in its tests.
///
/// # Example
/// ```
/// use stowfast_core::reckon::first::beta_share;
///
/// assert!((beta_share(1.0, 3.0, 0.5) - 0.875).abs() < 1e-12);
/// ```
#[must_use]
pub fn beta_share(a: f64, b: f64, x: f64) -> f64 {
    share_and_step(a, b, x).0
}

/// That chance, and by how much it falls for Beta(`a + 1`, `b - 1`).
pub(super) fn share_and_step(a: f64, b: f64, x: f64) -> (f64, f64) {
    if x <= 0.0 {
        return (0.0, 0.0);
    }
    if x >= 1.0 {
        return (1.0, 0.0);
    }
    let front = exp(a * log(x) + b * log1p(-x) + lgamma(a + b) - lgamma(a) - lgamma(b));
    let share = if x < (a + 1.0) / (a + b + 2.0) {
        front * fraction(a, b, x) / a
    } else {
        1.0 - front * fraction(b, a, 1.0 - x) / b
    };
    (share.clamp(0.0, 1.0), front / (a * (1.0 - x)))
}

/// The continued fraction of it.
fn fraction(a: f64, b: f64, x: f64) -> f64 {
    let held = |value: f64| if fabs(value) < TINY { TINY } else { value };
    let mut below = 1.0 / held(1.0 - (a + b) * x / (a + 1.0));
    let (mut above, mut value) = (1.0, below);
    for term in 1..=TERMS_MAX {
        let term = f64::from(term);
        let even = term * (b - term) * x / ((a + 2.0 * term - 1.0) * (a + 2.0 * term));
        let odd = -(a + term) * (a + b + term) * x / ((a + 2.0 * term) * (a + 2.0 * term + 1.0));
        let mut change = 1.0;
        for part in [even, odd] {
            below = 1.0 / held(1.0 + part * below);
            above = held(1.0 + part / above);
            change = below * above;
            value *= change;
        }
        if fabs(change - 1.0) < STILL {
            break;
        }
    }
    value
}
