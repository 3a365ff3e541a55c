//! Ramps: which wheels go on which step.

use super::{Base, Up, WHEELS};

/// One way to use the ramps. Unit: mm for each wheel, 0 on the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stand {
    /// What lies under each wheel.
    pub under_mm: [f64; WHEELS],
    /// How far the vehicle leans then in all. Unit: degrees.
    pub tilt_deg: f64,
}

/// The way up of a vehicle with so much under each wheel.
///
/// # Units
/// `under_mm`: mm, ≥ 0.
#[must_use]
pub fn settled(base: Base, up: Up, under_mm: [f64; WHEELS]) -> Up {
    let [x, y, z] = up.parts();
    let [fl, fr, rl, rr] = under_mm;
    let ahead = (fl + fr - rl - rr) / (2.0 * base.wheelbase_mm);
    let left = (fl + rl - fr - rr) / (2.0 * base.track_mm);
    Up::of([x + ahead, y + left, z]).unwrap_or(up)
}

/// The way that leaves it leaning least, of all that there are, the ground included; of several the one
/// with the fewest ramps, then the lowest.
///
/// # Units
/// `steps_mm`: heights of the steps of each ramp, mm, > 0. `ramps`: how many there are.
#[must_use]
pub fn best(base: Base, up: Up, steps_mm: &[f64], ramps: usize) -> Stand {
    let ground = Stand { under_mm: [0.0; WHEELS], tilt_deg: up.tilt_deg() };
    let heights = || std::iter::once(0.0).chain(steps_mm.iter().copied());
    let front = || heights().flat_map(move |fl| heights().map(move |fr| [fl, fr]));
    let all = front().flat_map(|[fl, fr]| front().map(move |[rl, rr]| [fl, fr, rl, rr]));
    let enough = all.filter(|under| used(under) <= ramps);
    enough.fold(ground, |best, under_mm| {
        let tilt_deg = settled(base, up, under_mm).tilt_deg();
        let one = Stand { under_mm, tilt_deg };
        if before(&one, &best) { one } else { best }
    })
}

fn used(under_mm: &[f64; WHEELS]) -> usize {
    under_mm.iter().filter(|under| **under > 0.0).count()
}

fn before(one: &Stand, other: &Stand) -> bool {
    let sum = |stand: &Stand| stand.under_mm.iter().sum::<f64>();
    one.tilt_deg
        .total_cmp(&other.tilt_deg)
        .then_with(|| used(&one.under_mm).cmp(&used(&other.under_mm)))
        .then_with(|| sum(one).total_cmp(&sum(other)))
        .is_lt()
}
