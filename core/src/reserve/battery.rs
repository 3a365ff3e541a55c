//! A battery's volts as a range of charge, and whether the reading counts.

use serde::{Deserialize, Serialize};

use super::band::{Bands, WHOLE_PERMILLE};
use super::chemistry::{PLAUSIBLE_MV, Table};
use super::{Validity, within};
use crate::error::Result;
use crate::fridge::{Age, Known};

/// What bears on whether resting volts count.
///
/// # Units
/// `rested` and `rest_needed_ms`: milliseconds, ≥ 0. Currents: mA, ≥ 0.
///
/// # Source
/// The hours of rest and the little load that does no harm are the pack's: common practice, no
/// source.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Conditions {
    /// The mains charger charges.
    pub mains_charging: Known,
    /// The alternator charges.
    pub alternator_charging: Known,
    /// The sun charges.
    pub solar_charging: Known,
    /// How long the battery has been neither charged nor loaded.
    pub rested: Age,
    /// How long it must have been (pack).
    pub rest_needed_ms: i64,
    /// What is being drawn; `None` where that is not known.
    pub load_ma: Option<i64>,
    /// How much may be drawn without spoiling the reading (pack).
    pub load_max_ma: i64,
}

/// What spoils a battery's reading.
///
/// # Units
/// `left_ms`: milliseconds, at the most. Currents: mA. `rest_max_mv`: mV.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Doubt {
    /// The mains charger is on.
    MainsCharging,
    /// The alternator charges.
    AlternatorCharging,
    /// The sun charges.
    SolarCharging,
    /// Charged or loaded too short a time ago.
    TooSoon {
        /// How much longer it should rest, at the most.
        left_ms: i64,
    },
    /// Too much is being drawn.
    Loaded {
        /// How much, where it is known.
        load_ma: Option<i64>,
        /// How much does no harm (pack).
        limit_ma: i64,
    },
    /// More volts than a resting battery of this kind has: something charges it, or did just now.
    TooHighForRest {
        /// The most that it has.
        rest_max_mv: i64,
    },
}

/// What a reading says.
///
/// # Units
/// Charge: tenths of a per cent of what the battery now holds, which age makes less.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Charge {
    /// The least charge that the volts allow.
    pub lower_permille: i64,
    /// The most.
    pub upper_permille: i64,
    /// Every band touched, lowest first; never empty. Believe them only where `validity` counts.
    pub bands: Vec<usize>,
    /// Whether the reading counts, and if not, everything that spoils it.
    pub validity: Validity<Doubt>,
}

/// What a 12 V battery's volts say about its charge.
///
/// # Units
/// `volts_mv`: mV at the terminals.
///
/// # Errors
/// [`crate::error::Error::InvalidInput`] for volts that are not those of a 12 V battery, or a time, load or
/// limit below 0.
///
/// # Source
/// See [`Table::published`]. The battery's temperature is not asked for: within the tolerance.
///
/// # Example
/// ```
/// use stowfast_core::fridge::{Age, Known};
/// use stowfast_core::reserve::Bands;
/// use stowfast_core::reserve::battery::{Conditions, read};
/// use stowfast_core::reserve::chemistry::{Chemistry, Table};
///
/// let rested = Conditions {
///     mains_charging: Known::No,
///     alternator_charging: Known::No,
///     solar_charging: Known::No,
///     rested: Age::Exactly(8 * 3_600_000),
///     rest_needed_ms: 4 * 3_600_000,
///     load_ma: Some(0),
///     load_max_ma: 500,
/// };
/// let bands = Bands::new(vec![200, 500, 800])?;
/// let charge = read(&Table::published(Chemistry::Flooded), &bands, 12_450, &rested)?;
/// assert_eq!((charge.lower_permille, charge.upper_permille), (690, 813));
/// assert_eq!(charge.bands, [2, 3]);
/// assert!(charge.validity.counts());
/// # Ok::<(), stowfast_core::error::Error>(())
/// ```
pub fn read(
    table: &Table,
    bands: &Bands,
    volts_mv: i64,
    conditions: &Conditions,
) -> Result<Charge> {
    within("volts_mv", volts_mv, &PLAUSIBLE_MV)?;
    check(conditions)?;
    let (lower_permille, upper_permille) = table.charge_permille(volts_mv);
    Ok(Charge {
        lower_permille,
        upper_permille,
        bands: bands.touched(lower_permille, upper_permille, WHOLE_PERMILLE),
        validity: validity(table, volts_mv, conditions),
    })
}

fn check(conditions: &Conditions) -> Result<()> {
    let natural = 0..=i64::MAX;
    within("rested_ms", conditions.rested.least_ms(), &natural)?;
    within("rest_needed_ms", conditions.rest_needed_ms, &natural)?;
    within("load_ma", conditions.load_ma.unwrap_or(0), &natural)?;
    within("load_max_ma", conditions.load_max_ma, &natural)?;
    Ok(())
}

fn validity(table: &Table, volts_mv: i64, conditions: &Conditions) -> Validity<Doubt> {
    let left_ms = conditions.rest_needed_ms.saturating_sub(conditions.rested.least_ms());
    let too_soon = match conditions.rested {
        _ if left_ms <= 0 => Known::No,
        Age::Exactly(_) => Known::Yes,
        Age::AtLeast(_) => Known::Unknown,
    };
    let load_ma = conditions.load_ma;
    let limit_ma = conditions.load_max_ma;
    let loaded = Known::from(load_ma.map(|load_ma| load_ma > limit_ma));
    let rest_max_mv = table.rest_max_mv();
    let too_high = Known::from(Some(volts_mv > rest_max_mv));
    Validity::of([
        (conditions.mains_charging, Doubt::MainsCharging),
        (conditions.alternator_charging, Doubt::AlternatorCharging),
        (conditions.solar_charging, Doubt::SolarCharging),
        (too_soon, Doubt::TooSoon { left_ms }),
        (loaded, Doubt::Loaded { load_ma, limit_ma }),
        (too_high, Doubt::TooHighForRest { rest_max_mv }),
    ])
}
