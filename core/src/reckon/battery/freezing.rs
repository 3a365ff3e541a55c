//! A lead battery that is not full freezes, and a frozen one is ruined.

use super::is_lead;
use crate::reckon::Between;
use crate::reserve::chemistry::Chemistry;

/// Charge (share) against the acid's specific gravity at 26.7 °C: the battery trade association's
/// table, as reproduced in a teaching document.
const GRAVITY: [(f64, f64); 5] =
    [(0.0, 1.120), (0.25, 1.155), (0.5, 1.190), (0.75, 1.225), (1.0, 1.265)];
/// Specific gravity against the temperature at which the acid freezes: a maker's manual (27, 18, 5,
/// −17, −35 and −75 °F), and for 1.250 an army technical manual (−62 °F).
const FREEZES_C: [(f64, f64); 7] = [
    (1.050, -2.8),
    (1.100, -7.8),
    (1.150, -15.0),
    (1.200, -27.2),
    (1.225, -37.2),
    (1.250, -52.2),
    (1.265, -59.4),
];
/// How far these tables are off, either way. Unit: °C.
const ERROR_C: f64 = 1.0;

/// At which temperature a lead battery of this charge freezes; `None` for lithium, which has no water
/// to freeze. Gel and glass mat hold the same acid.
///
/// # Units
/// `level`: share, 0 to 1. Returns °C of the cells.
///
/// # Source
/// The tables above, straight lines between their rows, ±1 °C.
#[must_use]
pub fn freezes_at_c(chemistry: Chemistry, level: Between) -> Option<Between> {
    let at = |share: f64| acid_freezes_c(straight(&GRAVITY, share)?);
    let (warmest, coldest) = (at(level.lower)?, at(level.upper)?);
    let band = Between { lower: coldest - ERROR_C, upper: warmest + ERROR_C };
    is_lead(chemistry).then_some(band)
}

/// At which temperature battery acid freezes.
///
/// # Units
/// `gravity`: specific gravity at 26.7 °C, 1.05 to 1.265; beyond these the end's value. °C, ±1.
///
/// # Source
/// See the table: a maker's manual and an army technical manual.
#[must_use]
pub fn acid_freezes_c(gravity: f64) -> Option<f64> {
    straight(&FREEZES_C, gravity)
}

/// Between the rows of a rising table, straight lines; its first or last value beyond them.
fn straight(rows: &[(f64, f64)], at: f64) -> Option<f64> {
    let below = rows.iter().rev().find(|row| row.0 <= at);
    let above = rows.iter().find(|row| row.0 >= at);
    match (below, above) {
        (Some(low), Some(high)) if high.0 > low.0 => {
            Some(low.1 + (high.1 - low.1) * (at - low.0) / (high.0 - low.0))
        }
        (Some(end), _) | (None, Some(end)) => Some(end.1),
        (None, None) => None,
    }
}
