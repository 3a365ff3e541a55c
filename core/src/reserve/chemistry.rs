//! What resting volts say about charge, by chemistry, as published.

use std::ops::RangeInclusive;

use serde::{Deserialize, Serialize};

use super::band::WHOLE_PERMILLE;
use super::{invalid, within};
use crate::error::Result;

/// What a 12 V battery's terminals may show, resting or not, for the reading to be taken for one
/// in volts of a 12 V system: 24 V systems and volts typed for millivolts fall outside.
///
/// # Units
/// mV.
///
/// # Source
/// Common practice, no source.
pub const PLAUSIBLE_MV: RangeInclusive<i64> = 1_000..=18_000;

/// How a 12 V battery is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Chemistry {
    /// Lead-acid with liquid electrolyte, six cells.
    Flooded,
    /// Lead-acid, electrolyte in glass mat, six cells.
    Agm,
    /// Lead-acid, electrolyte as gel, six cells.
    Gel,
    /// Lithium iron phosphate, four cells.
    Lifepo4,
}

/// One row: at these resting volts, this charge.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Row {
    /// Resting volts of the whole battery. Unit: mV.
    pub volts_mv: i64,
    /// Charge. Unit: tenths of a per cent of what the battery holds.
    pub charge_permille: i64,
}

/// Resting volts against charge, straight lines between the rows.
///
/// # Units
/// Volts: mV. Charge: tenths of a per cent.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Table {
    rows: Vec<Row>,
    tolerance_mv: i64,
    rest_max_mv: i64,
    blind_permille: Option<(i64, i64)>,
}

impl Table {
    /// A table from a pack: the battery maker's own goes before a published one.
    ///
    /// # Units
    /// `tolerance_mv`: mV either way, ≥ 0. `rest_max_mv`: mV, more than which no resting battery
    /// of this kind shows. `blind_permille`: tenths of a per cent, the stretch in which volts say
    /// nothing.
    ///
    /// # Errors
    /// [`crate::error::Error::InvalidInput`] if there is no row, a value is out of range, the
    /// volts do not rise or the charge falls from row to row.
    ///
    /// # Source
    /// The pack.
    pub fn new(
        rows: Vec<Row>,
        tolerance_mv: i64,
        rest_max_mv: i64,
        blind_permille: Option<(i64, i64)>,
    ) -> Result<Self> {
        Self { rows, tolerance_mv, rest_max_mv, blind_permille }.checked()
    }

    /// The table, if it does not contradict itself.
    pub(super) fn checked(self) -> Result<Self> {
        within("tolerance_mv", self.tolerance_mv, &(0..=1_000))?;
        within("rest_max_mv", self.rest_max_mv, &PLAUSIBLE_MV)?;
        if self.rows.is_empty() {
            return Err(invalid("rows", "one row or more".to_owned()));
        }
        for row in &self.rows {
            within("volts_mv", row.volts_mv, &PLAUSIBLE_MV)?;
            within("charge_permille", row.charge_permille, &(0..=WHOLE_PERMILLE))?;
        }
        let rises = |pair: (&Row, &Row)| {
            pair.0.volts_mv < pair.1.volts_mv && pair.0.charge_permille <= pair.1.charge_permille
        };
        if !self.rows.iter().zip(self.rows.iter().skip(1)).all(rises) {
            return Err(invalid("rows", "volts rising, charge not falling".to_owned()));
        }
        if let Some((from, to)) = self.blind_permille {
            within("blind_from_permille", from, &(0..=WHOLE_PERMILLE))?;
            within("blind_to_permille", to, &(from..=WHOLE_PERMILLE))?;
        }
        Ok(self)
    }

    /// The published table of a chemistry.
    ///
    /// # Units
    /// 12 V batteries, at about 25 °C, new.
    ///
    /// # Source
    /// Flooded: the battery trade association's table at 26.7 °C, as reproduced in a teaching
    /// document, ±0.05 V. AGM: a vehicle maker's battery table (12.0, 12.3, 12.6 and 12.8 V, full
    /// to 13.2 V), its 0 % from a second page (below 11.8 V), ±0.1 V. Gel: from memory, ±0.15 V.
    /// Lithium iron phosphate: one chart of several near-identical ones without a primary source,
    /// ±0.1 V, and no word on charge between 20 and 90 %. `rest_max`: flooded and gel, a lead-acid
    /// cell model at its strongest acid (12.991 V); AGM, the table's 13.2 V and its tolerance;
    /// lithium, a cell model at 99 % (13.66 V) and the 0.25 V by which charts differ from it.
    #[must_use]
    pub fn published(chemistry: Chemistry) -> Self {
        let (rows, tolerance_mv, rest_max_mv, blind_permille): (&[(i64, i64)], _, _, _) =
            match chemistry {
                Chemistry::Flooded => (FLOODED, 50, 13_000, None),
                Chemistry::Agm => (AGM, 100, 13_300, None),
                Chemistry::Gel => (GEL, 150, 13_000, None),
                Chemistry::Lifepo4 => (LIFEPO4, 100, 13_910, Some((200, 900))),
            };
        let row = |&(volts_mv, charge_permille): &(i64, i64)| Row { volts_mv, charge_permille };
        Self { rows: rows.iter().map(row).collect(), tolerance_mv, rest_max_mv, blind_permille }
    }

    /// The most that a resting battery of this kind shows.
    ///
    /// # Units
    /// mV.
    ///
    /// # Source
    /// See [`Table::published`], or the pack.
    #[must_use]
    pub fn rest_max_mv(&self) -> i64 {
        self.rest_max_mv
    }

    /// The least and the most charge that resting volts allow.
    ///
    /// Below the first row anything down to empty is possible, above the last anything up to
    /// full. An interval that reaches into the blind stretch covers all of it.
    ///
    /// # Units
    /// `volts_mv`: mV. Returns tenths of a per cent, rounded outwards.
    ///
    /// # Source
    /// Straight lines between the rows: definition.
    #[must_use]
    pub fn charge_permille(&self, volts_mv: i64) -> (i64, i64) {
        let (lower, _) = self.at(volts_mv.saturating_sub(self.tolerance_mv));
        let (_, upper) = self.at(volts_mv.saturating_add(self.tolerance_mv));
        match self.blind_permille {
            Some((from, to)) if lower < to && from < upper => (lower.min(from), upper.max(to)),
            Some(_) | None => (lower, upper),
        }
    }

    /// The charge at exactly these volts, rounded down and up.
    fn at(&self, volts_mv: i64) -> (i64, i64) {
        let below = self.rows.iter().rev().find(|row| row.volts_mv <= volts_mv);
        let above = self.rows.iter().find(|row| row.volts_mv >= volts_mv);
        match (below, above) {
            (Some(low), Some(high)) => between(*low, *high, volts_mv),
            (Some(last), None) => (last.charge_permille, WHOLE_PERMILLE),
            (None, Some(first)) => (0, first.charge_permille),
            (None, None) => (0, WHOLE_PERMILLE),
        }
    }
}

fn between(low: Row, high: Row, volts_mv: i64) -> (i64, i64) {
    let rise = high.charge_permille.saturating_sub(low.charge_permille);
    let part = rise.saturating_mul(volts_mv.saturating_sub(low.volts_mv));
    let run_mv = high.volts_mv.saturating_sub(low.volts_mv);
    // No run: both rows are the one that stands at these volts.
    let down = part.checked_div(run_mv).unwrap_or(0);
    let up = i64::from(part.checked_rem(run_mv).unwrap_or(0) > 0);
    let lower = low.charge_permille.saturating_add(down);
    (lower, lower.saturating_add(up))
}

/// (mV, ‰).
type Rows = &'static [(i64, i64)];

const FLOODED: Rows = &[(11_890, 0), (12_060, 250), (12_240, 500), (12_450, 750), (12_650, 1_000)];
const AGM: Rows = &[(11_800, 0), (12_000, 250), (12_300, 500), (12_600, 750), (12_800, 1_000)];
const GEL: Rows = &[(11_800, 0), (12_000, 250), (12_350, 500), (12_650, 750), (12_850, 1_000)];
const LIFEPO4: Rows = &[
    (10_000, 0),
    (12_000, 100),
    (12_800, 200),
    (13_000, 300),
    (13_200, 400),
    (13_300, 700),
    (13_400, 900),
];
