//! What a gauge measures, in small units, and where it ends.

use crate::catalogue::Measured;
use crate::engine::gas;
use crate::engine::gauge::bands;
use crate::error::Result;
use crate::reserve::{Amount, Bands, whole};
use crate::state::Reading;
use crate::vehicle::{Drawn, Fitting, Gauge, Settings};

/// What a gauge measures, and where it ends.
pub(in crate::engine) struct Scale {
    pub(in crate::engine) bands: Bands,
    /// The whole, in the unit of `amount`.
    pub(in crate::engine) capacity: i64,
    pub(in crate::engine) amount: Amount,
    /// Where use ends.
    pub(in crate::engine) end: i64,
    fills: bool,
}

impl Scale {
    pub(in crate::engine) fn of(fitting: &Fitting, gauge: &Gauge) -> Result<Self> {
        let (capacity, amount) = match gauge.of {
            Measured::Tank => {
                let litres = fitting.number("capacity_l").unwrap_or(0.0);
                let whole = whole("capacity_l", litres, 1_000, 0..=Reading::MILLI_MAX)?;
                (whole, Amount::Millilitres)
            }
            Measured::Battery => (Amount::WHOLE_PERMILLE, Amount::Permille),
            Measured::Gas => gas::holds(fitting)?,
        };
        let bands = bands(fitting)?;
        let (lower, upper) = bands.stretch(usize::from(gauge.end), capacity);
        let end = if gauge.fills { lower } else { upper };
        let floors = gauge.drawn_by.iter().filter_map(|drawn| drawn.down_to_permille);
        let end = floors.map(|permille| of_whole(capacity, permille)).fold(end, i64::max);
        Ok(Self { bands, capacity, amount, end, fills: gauge.fills })
    }

    /// Whether use ends at so many thousandths of the whole.
    pub(in crate::engine) fn ends_at(&self, permille: i64) -> bool {
        self.end == of_whole(self.capacity, permille)
    }

    /// Whether enough is there for what draws from it, where a level leaves no doubt: its variable, and how
    /// that stands.
    pub(in crate::engine) fn drawn(
        &self,
        gauge: &Gauge,
        (lower, upper): (i64, i64),
    ) -> Vec<(usize, Settings)> {
        let tells = |one: &Drawn| {
            let floor = of_whole(self.capacity, one.down_to_permille?);
            let place = match (lower >= floor, upper < floor) {
                (true, _) => one.above,
                (false, true) => one.below,
                (false, false) => return None,
            };
            Some((one.variable, Settings::one(place)))
        };
        gauge.drawn_by.iter().filter_map(tells).collect()
    }

    pub(in crate::engine) fn band(&self, place: u8) -> (i64, i64) {
        self.bands.stretch(usize::from(place), self.capacity)
    }

    /// What is left of a level, until the end.
    pub(in crate::engine) fn turned(&self, (lower, upper): (i64, i64)) -> (i64, i64) {
        if self.fills {
            (self.end.saturating_sub(upper), self.end.saturating_sub(lower))
        } else {
            (lower.saturating_sub(self.end), upper.saturating_sub(self.end))
        }
    }

    /// The level of what is left.
    pub(in crate::engine) fn level(&self, (lower, upper): (i64, i64)) -> (i64, i64) {
        if self.fills {
            return self.turned((lower, upper));
        }
        (lower.saturating_add(self.end), upper.saturating_add(self.end))
    }
}

/// So many thousandths of the whole, rounded up.
fn of_whole(capacity: i64, permille: i64) -> i64 {
    capacity.saturating_mul(permille).saturating_add(999).div_euclid(1_000)
}
