//! A tank's gauge, a count of lamps or a volume, as an interval and the bands that it touches.

use std::ops::RangeInclusive;

use serde::{Deserialize, Serialize};

use super::band::{Bands, WHOLE_PERMILLE, rising};
use super::{Validity, invalid, within};
use crate::error::Result;
use crate::fridge::Known;

/// What a tank may hold to be taken for one: 1 L to 10 000 L.
///
/// # Units
/// mL.
///
/// # Source
/// Common practice, no source: it catches litres written for millilitres.
const CAPACITY_ML: RangeInclusive<i64> = 1_000..=10_000_000;

/// What a gauge shows, with what the pack says about the gauge.
///
/// # Units
/// Per mille: tenths of a per cent of the capacity. Errors: either way, ≥ 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reading<'a> {
    /// A row of lamps that light from the lowest.
    Lamps {
        /// How many are lit.
        lit: i64,
        /// The level at which each comes on, lowest first (pack).
        thresholds_permille: &'a [i64],
        /// How far a threshold may be out (pack).
        error_permille: i64,
    },
    /// A gauge in per cent.
    Percent {
        /// What it shows.
        level_permille: i64,
        /// How far it may be out (pack).
        error_permille: i64,
    },
    /// A volume: a gauge in litres, a meter, or what was poured in.
    Volume {
        /// How much.
        volume_ml: i64,
        /// How far it may be out.
        error_ml: i64,
    },
}

/// What spoils a tank's reading.
///
/// # Source
/// Common practice, no source.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Doubt {
    /// The gauge has no power: no lamp lit says nothing.
    Unpowered,
    /// The vehicle moves, and the tank with it.
    Moving,
    /// The vehicle does not stand level.
    OffLevel,
}

/// What bears on whether a tank's reading counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Conditions {
    /// The gauge has power; `Yes` for a volume and for a gauge that needs none.
    pub powered: Known,
    /// The vehicle stands still.
    pub still: Known,
    /// It stands level enough for its gauges.
    pub level: Known,
}

/// What a reading says.
///
/// # Units
/// Volumes: mL, 0 to the capacity, both ends possible.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Level {
    /// The least that may be in the tank.
    pub lower_ml: i64,
    /// The most.
    pub upper_ml: i64,
    /// Every band touched, lowest first; never empty. Believe them only where `validity` counts.
    pub bands: Vec<usize>,
    /// Whether the reading counts, and if not, everything that spoils it.
    pub validity: Validity<Doubt>,
}

/// A tank: what it holds and how its level is divided into bands.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Tank {
    capacity_ml: i64,
    bands: Bands,
}

impl Tank {
    /// A tank from the pack.
    ///
    /// # Units
    /// `capacity_ml`: mL, 1 000 to 10 000 000.
    ///
    /// # Errors
    /// [`crate::error::Error::InvalidInput`] for a capacity out of range.
    ///
    /// # Source
    /// The pack.
    pub fn new(capacity_ml: i64, bands: Bands) -> Result<Self> {
        let capacity_ml = within("capacity_ml", capacity_ml, &CAPACITY_ML)?;
        Ok(Self { capacity_ml, bands })
    }

    /// What a reading says of the tank's content.
    ///
    /// # Units
    /// See [`Reading`] and [`Level`]. Levels are whole millilitres: a lamp that has not come on
    /// puts the level at least 1 mL below its threshold.
    ///
    /// # Errors
    /// [`crate::error::Error::InvalidInput`] for a value below 0, beyond the capacity, more lamps lit than
    /// there are, or thresholds that do not rise.
    ///
    /// # Source
    /// Definition; the gauge's error and the thresholds are the pack's.
    ///
    /// # Example
    /// ```
    /// use stowfast_core::fridge::Known;
    /// use stowfast_core::reserve::{Bands, tank::{Conditions, Reading, Tank}};
    ///
    /// let tank = Tank::new(100_000, Bands::new(vec![50, 250, 900])?)?;
    /// let fine = Conditions { powered: Known::Yes, still: Known::Yes, level: Known::Yes };
    /// let lamps = Reading::Lamps {
    ///     lit: 1,
    ///     thresholds_permille: &[200, 500, 950],
    ///     error_permille: 0,
    /// };
    /// let level = tank.read(&lamps, fine)?;
    /// assert_eq!((level.lower_ml, level.upper_ml), (20_000, 49_999));
    /// assert_eq!(level.bands, [1, 2]);
    /// # Ok::<(), stowfast_core::error::Error>(())
    /// ```
    pub fn read(&self, reading: &Reading<'_>, conditions: Conditions) -> Result<Level> {
        let (lower_ml, upper_ml) = match *reading {
            Reading::Lamps { lit, thresholds_permille, error_permille } => {
                self.lamps(lit, thresholds_permille, error_permille)?
            }
            Reading::Percent { level_permille, error_permille } => {
                let level = within("level_permille", level_permille, &(0..=WHOLE_PERMILLE))?;
                let error = within("error_permille", error_permille, &(0..=WHOLE_PERMILLE))?;
                let lower_ml = self.floor_ml(level.saturating_sub(error));
                (lower_ml, self.ceil_ml(level.saturating_add(error)))
            }
            Reading::Volume { volume_ml, error_ml } => {
                let volume = within("volume_ml", volume_ml, &(0..=self.capacity_ml))?;
                let error = within("error_ml", error_ml, &(0..=self.capacity_ml))?;
                (volume.saturating_sub(error), volume.saturating_add(error))
            }
        };
        let lower_ml = lower_ml.clamp(0, self.capacity_ml);
        let upper_ml = upper_ml.clamp(lower_ml, self.capacity_ml);
        let bands = self.bands.touched(lower_ml, upper_ml, self.capacity_ml);
        Ok(Level { lower_ml, upper_ml, bands, validity: validity(conditions) })
    }

    /// From the threshold of the last lamp that is lit to just below that of the first that is not.
    fn lamps(&self, lit: i64, thresholds: &[i64], error_permille: i64) -> Result<(i64, i64)> {
        rising("thresholds_permille", thresholds)?;
        let error = within("error_permille", error_permille, &(0..=WHOLE_PERMILLE))?;
        let too_many = || invalid("lit", format!("0 to {} lamps", thresholds.len()));
        let lit = usize::try_from(lit).map_err(|_| too_many())?;
        let (below, above) = thresholds.split_at_checked(lit).ok_or_else(too_many)?;
        let lower_ml = below.last().map_or(0, |on| self.ceil_ml(on.saturating_sub(error)));
        let upper_ml = above.first().map_or(self.capacity_ml, |off| {
            self.ceil_ml(off.saturating_add(error)).saturating_sub(1)
        });
        Ok((lower_ml, upper_ml))
    }

    fn floor_ml(&self, permille: i64) -> i64 {
        self.capacity_ml.saturating_mul(permille).div_euclid(WHOLE_PERMILLE)
    }

    fn ceil_ml(&self, permille: i64) -> i64 {
        let thousandths = self.capacity_ml.saturating_mul(permille);
        thousandths.saturating_add(WHOLE_PERMILLE).saturating_sub(1).div_euclid(WHOLE_PERMILLE)
    }
}

pub(super) fn validity(conditions: Conditions) -> Validity<Doubt> {
    Validity::of([
        (!conditions.powered, Doubt::Unpowered),
        (!conditions.still, Doubt::Moving),
        (!conditions.level, Doubt::OffLevel),
    ])
}
