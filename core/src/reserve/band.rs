//! A scale of bands, and which of them an interval touches.

use serde::Serialize;

use super::{invalid, within};
use crate::error::Result;

/// The whole, in the unit of the edges.
pub(super) const WHOLE_PERMILLE: i64 = 1_000;

/// Ordered bands over a capacity, lowest first: band 0 lies below the first edge, the last one
/// reaches from the last edge to full. A level on an edge is in the upper band.
///
/// # Units
/// Edges: tenths of a per cent of the capacity.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Bands {
    edges_permille: Vec<i64>,
}

impl Bands {
    /// A scale from the pack's edges; no edge makes one band.
    ///
    /// # Units
    /// `edges_permille`: tenths of a per cent of the capacity, 1 to 1000. An edge at 1000 makes a
    /// last band of "full to the brim" alone.
    ///
    /// # Errors
    /// [`crate::error::Error::InvalidInput`] if an edge is out of range or not above the one
    /// before it.
    ///
    /// # Source
    /// The pack.
    pub fn new(edges_permille: Vec<i64>) -> Result<Self> {
        rising("edges_permille", &edges_permille)?;
        Ok(Self { edges_permille })
    }

    /// How many bands there are: one more than edges.
    #[must_use]
    pub fn count(&self) -> usize {
        self.edges_permille.len().saturating_add(1)
    }

    /// Where a band begins and ends, both ends possible; the upper end of the last is the whole.
    ///
    /// # Units
    /// `capacity` and the result: one unit of the caller's choice, rounded outward.
    #[must_use]
    pub fn stretch(&self, band: usize, capacity: i64) -> (i64, i64) {
        let edge = |at: Option<usize>| at.and_then(|at| self.edges_permille.get(at)).copied();
        let share = |permille: i64| capacity.saturating_mul(permille);
        let lower = share(edge(band.checked_sub(1)).unwrap_or(0)).div_euclid(WHOLE_PERMILLE);
        let upper = share(edge(Some(band)).unwrap_or(WHOLE_PERMILLE));
        (lower, upper.saturating_add(WHOLE_PERMILLE).saturating_sub(1).div_euclid(WHOLE_PERMILLE))
    }

    /// The band of one level.
    fn of(&self, level: i64, capacity: i64) -> usize {
        let level = i128::from(level).saturating_mul(i128::from(WHOLE_PERMILLE));
        let reached = |edge: &i64| i128::from(*edge).saturating_mul(i128::from(capacity)) <= level;
        self.edges_permille.iter().filter(|edge| reached(edge)).count()
    }

    /// Every band that a level from `lower` to `upper` may be in, lowest first; never empty.
    ///
    /// # Units
    /// `lower`, `upper` and `capacity`: one unit of the caller's choice.
    ///
    /// # Source
    /// Definition.
    #[must_use]
    pub fn touched(&self, lower: i64, upper: i64, capacity: i64) -> Vec<usize> {
        let first = self.of(lower, capacity);
        (first..=self.of(upper, capacity).max(first)).collect()
    }
}

/// Values that rise, each above 0 and none above the whole.
pub(super) fn rising(field: &str, values_permille: &[i64]) -> Result<()> {
    let mut last = 0;
    for &value in values_permille {
        within(field, value, &(1..=WHOLE_PERMILLE))?;
        if value <= last {
            return Err(invalid(field, format!("more than {last}, the one before")));
        }
        last = value;
    }
    Ok(())
}
