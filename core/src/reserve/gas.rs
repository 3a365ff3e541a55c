//! What is left in a gas cylinder: by its gauge, by its weight, or by what is seen of it.
//!
//! # Units
//! Amounts: whole small units of what the cylinder holds when full (mL, g, or tenths of a per cent
//! of that where nothing else is known), both ends possible.
//!
//! # Source
//! Definition (mass balance: what a cylinder weighs above its tare is gas). That a gauge's per cent
//! and the mass fall alike: common practice, no source; a gauge's error is the pack's.

use serde::Serialize;

use super::band::{Bands, WHOLE_PERMILLE};
use super::tank::{Conditions, Doubt, validity};
use super::{Validity, invalid, within};
use crate::error::Result;
use crate::fridge::Known;

/// What tells how full a cylinder is, with what the pack says about it.
///
/// # Units
/// Per mille: tenths of a per cent. Masses: g. Errors: either way, ≥ 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shown {
    /// A gauge in per cent.
    Percent {
        /// What it shows.
        shown_permille: i64,
        /// What it shows when the cylinder is full: 1000, or less where it is of the whole volume.
        full_permille: i64,
        /// How far it may be out.
        error_permille: i64,
    },
    /// The whole cylinder on a scale; what it holds is then in g.
    Weight {
        /// What the scale shows.
        gross_g: i64,
        /// What the cylinder weighs empty.
        tare_g: i64,
        /// How far scale and tare may be out.
        error_g: i64,
    },
    /// One of the bands, as somebody saw it.
    Band(usize),
}

/// What is left, as far as that tells.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Level {
    /// The least.
    pub lower: i64,
    /// The most.
    pub upper: i64,
    /// Every band touched, lowest first; never empty. Believe them only where `validity` counts.
    pub bands: Vec<usize>,
    /// Whether the reading counts, and if not, everything that spoils it.
    pub validity: Validity<Doubt>,
}

/// A cylinder: what it holds when full, and how that is divided into bands.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Cylinder {
    holds: i64,
    bands: Bands,
}

impl Cylinder {
    /// A cylinder from the pack.
    ///
    /// # Units
    /// `holds`: 1 to 10 000 000 small units.
    ///
    /// # Errors
    /// [`crate::error::Error::InvalidInput`] for one out of range.
    pub fn new(holds: i64, bands: Bands) -> Result<Self> {
        Ok(Self { holds: within("holds", holds, &(1..=10_000_000))?, bands })
    }

    /// What a reading says of what is left. A gauge is read standing still and level, a cylinder
    /// weighed standing still; what was seen counts.
    ///
    /// # Errors
    /// [`crate::error::Error::InvalidInput`] for a weight below the tare or above that of a full
    /// cylinder, a gauge beyond full, each by more than the error, or a band that there is not.
    ///
    /// # Example
    /// ```
    /// use stowfast_core::fridge::Known;
    /// use stowfast_core::reserve::Bands;
    /// use stowfast_core::reserve::gas::{Cylinder, Shown};
    /// use stowfast_core::reserve::tank::Conditions;
    ///
    /// let cylinder = Cylinder::new(11_000, Bands::new(vec![50, 200, 900])?)?;
    /// let fine = Conditions { powered: Known::Yes, still: Known::Yes, level: Known::Yes };
    /// let scale = Shown::Weight { gross_g: 14_500, tare_g: 10_000, error_g: 500 };
    /// let level = cylinder.read(&scale, fine)?;
    /// assert_eq!((level.lower, level.upper), (4_000, 5_000));
    /// assert_eq!(level.bands, [2]);
    /// # Ok::<(), stowfast_core::error::Error>(())
    /// ```
    pub fn read(&self, shown: &Shown, conditions: Conditions) -> Result<Level> {
        let (lower, upper) = match *shown {
            Shown::Percent { shown_permille, full_permille, error_permille } => {
                self.percent(shown_permille, full_permille, error_permille)?
            }
            Shown::Weight { gross_g, tare_g, error_g } => self.weight(gross_g, tare_g, error_g)?,
            Shown::Band(band) => return self.band(band),
        };
        let lower = lower.clamp(0, self.holds);
        let upper = upper.clamp(lower, self.holds);
        let level = match shown {
            Shown::Percent { .. } => conditions.level,
            Shown::Weight { .. } | Shown::Band(_) => Known::Yes,
        };
        let validity = validity(Conditions { powered: Known::Yes, level, ..conditions });
        Ok(Level { lower, upper, bands: self.bands.touched(lower, upper, self.holds), validity })
    }

    fn percent(&self, shown: i64, full: i64, error: i64) -> Result<(i64, i64)> {
        let full = within("full_permille", full, &(1..=WHOLE_PERMILLE))?;
        let error = within("error_permille", error, &(0..=WHOLE_PERMILLE))?;
        let most = full.saturating_add(error).min(WHOLE_PERMILLE);
        let shown = within("shown_permille", shown, &(0..=most))?;
        let of = |permille: i64, up: i64| {
            let share = self.holds.saturating_mul(permille);
            let more = up.saturating_mul(full.saturating_sub(1));
            share.saturating_add(more).div_euclid(full)
        };
        Ok((of(shown.saturating_sub(error), 0), of(shown.saturating_add(error), 1)))
    }

    fn weight(&self, gross: i64, tare: i64, error: i64) -> Result<(i64, i64)> {
        let error = within("error_g", error, &(0..=i64::from(u32::MAX)))?;
        let full = tare.saturating_add(self.holds);
        let range = tare.saturating_sub(error)..=full.saturating_add(error);
        let net = within("gross_g", gross, &range)?.saturating_sub(tare);
        Ok((net.saturating_sub(error), net.saturating_add(error)))
    }

    fn band(&self, band: usize) -> Result<Level> {
        if band >= self.bands.count() {
            return Err(invalid("band", format!("one of {} bands", self.bands.count())));
        }
        let (lower, upper) = self.bands.stretch(band, self.holds);
        Ok(Level { lower, upper, bands: vec![band], validity: Validity::Counts })
    }
}
