//! Liquefied gas: whether it flows in the cold, how a mixture changes as it is used, how much a
//! cylinder gives at once, and what is in it.
//!
//! # Model
//! Liquid and vapour in balance. A mixture follows Raoult's law; as vapour is drawn the liquid that
//! stays grows richer in butane (Rayleigh, at the volatility of the one temperature). A cylinder is as full
//! as it was filled at once: what was filled on top of a rest is not what its label says. What was drawn
//! before tonight was drawn at tonight's low or at up to 40 °C. What a cylinder gives at once is what the
//! air around warms through its wetted wall: it falls with the air's distance from the boiling point.
//!
//! # Units
//! Pressures: kPa absolute, unless named gauge. Temperatures: °C. Masses: kg. Rates: kg/h.
//!
//! # Source
//! Vapour pressure: a Wagner equation through values of reference equations of state (`CoolProp` 8.0.0).
//! Off-take: a consumer glossary of the trade and a vaporisation chart, named in `flow.rs`. Heating
//! values: see [`NET_KWH_PER_KG`]. Density and heat of evaporation: fits to `CoolProp` 8.0.0, see
//! `liquid.rs`.
//!
//! # Error band
//! Pure gases 0.1 % from -45 to 50 °C; commercial grades differ by what else is in them. Raoult's law
//! lies up to 4.5 % above the mixture's own equation of state: the band of [`bubble_kpa`] holds both.
//! Off-take: 30 %, as its source is a guide. Density and heat of evaporation: 2 % of commercial grades; a
//! volume is read at -20 to 40 °C, where nobody measured it.

mod draw;
mod flow;
mod liquid;

pub use draw::{by_mole_left, comes_out, left_over, share_left, stays};
pub use flow::{Draw, gives_kg_per_h};
pub use liquid::{LIQUID_C, evaporates_w, kg_per_l};

use super::Between;

/// Standard pressure of the air. Unit: kPa. Source: definition.
const AIR_KPA: f64 = 101.325;
/// What a regulator needs above the air's pressure. Unit: kPa. From memory, to be checked.
pub const INLET_KPA: f64 = 30.0;
/// How far Raoult's law lies above the mixture's equation of state, at the most. Source: both tables of
/// `lpg_mix_bubble.csv`.
const RAOULT_ABOVE: f64 = 0.045;
/// Heat from a kilogram of commercial gas, water leaving as vapour; butane to propane. Source: UK
/// Government GHG Conversion Factors 2023, and ideal-gas heats of combustion.
pub const NET_KWH_PER_KG: Between = Between { lower: 12.58, upper: 12.89 };

/// Kilograms of a mole. Source: definition (atomic weights).
const PROPANE_KG_PER_KMOL: f64 = 44.0956;
const BUTANE_KG_PER_KMOL: f64 = 58.1222;

/// One gas of those that are sold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pure {
    /// Propane.
    Propane,
    /// n-Butane.
    Butane,
    /// Isobutane.
    Isobutane,
}

impl Pure {
    /// Critical temperature (K) and pressure (kPa), and four coefficients.
    fn wagner(self) -> (f64, f64, [f64; 4]) {
        match self {
            Self::Propane => (369.89, 4_251.2, [-6.744_44, 1.483_68, -1.454_92, -2.379_95]),
            Self::Butane => (425.125, 3_796.0, [-7.047_16, 1.673_91, -1.829_45, -2.550_24]),
            Self::Isobutane => (407.81, 3_629.0, [-6.890_86, 1.512_18, -1.668_41, -2.721_88]),
        }
    }

    /// The pressure of vapour over its liquid.
    ///
    /// # Units
    /// `celsius`: -45 to 50 °C; what lies beyond counts as the end. Result: kPa absolute.
    #[must_use]
    pub fn vapour_kpa(self, celsius: f64) -> f64 {
        let kelvin = celsius.clamp(-45.0, 50.0) + 273.15;
        let (critical_k, critical_kpa, [a, b, c, d]) = self.wagner();
        let away = 1.0 - kelvin / critical_k;
        let sum = a * away
            + b * libm::pow(away, 1.5)
            + c * libm::pow(away, 2.5)
            + d * libm::pow(away, 5.0);
        critical_kpa * libm::exp(sum * critical_k / kelvin)
    }
}

/// Moles of propane in a mole of a mixture of propane and butane.
///
/// # Units
/// `by_mass`: kg of propane in a kg, 0 to 1. Result: 0 to 1.
#[must_use]
pub fn by_mole(by_mass: f64) -> f64 {
    let by_mass = by_mass.clamp(0.0, 1.0);
    let propane = by_mass / PROPANE_KG_PER_KMOL;
    propane / (propane + (1.0 - by_mass) / BUTANE_KG_PER_KMOL)
}

/// The pressure of vapour over a mixture of propane and n-butane.
///
/// # Units
/// `by_mole`: moles of propane in a mole of the liquid, 0 to 1. Result: kPa absolute; the upper end is
/// Raoult's law.
#[must_use]
pub fn bubble_kpa(by_mole: f64, celsius: f64) -> Between {
    let share = by_mole.clamp(0.0, 1.0);
    let pressure = share * Pure::Propane.vapour_kpa(celsius)
        + (1.0 - share) * Pure::Butane.vapour_kpa(celsius);
    // A pure gas is known as it is.
    let above = if share <= 0.0 || share >= 1.0 { 0.0 } else { RAOULT_ABOVE };
    Between::of(pressure * (1.0 - above), pressure)
}

/// By how much the pressure over a mixture is above the air's.
///
/// # Units
/// kPa.
#[must_use]
pub fn gauge_kpa(by_mole: f64, celsius: f64) -> Between {
    bubble_kpa(by_mole, celsius) - Between::exactly(AIR_KPA)
}

/// Whether it flows through a regulator: whatever the band, at neither end, or it cannot be told.
#[must_use]
pub fn flows(by_mole: f64, celsius: f64) -> Option<bool> {
    let pressure = gauge_kpa(by_mole, celsius);
    match (pressure.lower >= INLET_KPA, pressure.upper >= INLET_KPA) {
        (true, _) => Some(true),
        (false, false) => Some(false),
        (false, true) => None,
    }
}

/// Whether it flows wherever its share of propane lies between two; `None` where that decides.
#[must_use]
pub fn flows_between(by_mole: Between, celsius: f64) -> Option<bool> {
    match (flows(by_mole.lower, celsius), flows(by_mole.upper, celsius)) {
        (Some(true), _) => Some(true),
        (_, Some(false)) => Some(false),
        _ => None,
    }
}

/// The temperature from which on it flows.
///
/// # Units
/// °C; the band of the mixture's pressure.
#[must_use]
pub fn flows_from_c(by_mole: f64) -> Between {
    let enough = |kpa: f64| kpa >= AIR_KPA + INLET_KPA;
    let from = |end: fn(Between) -> f64| {
        first((-45.0, 50.0), |celsius| enough(end(bubble_kpa(by_mole, celsius))))
    };
    Between::of(from(|band| band.lower), from(|band| band.upper))
}

/// The share of propane from which on a mixture flows at a temperature.
///
/// # Units
/// Moles of propane in a mole, 0 to 1; 0 where butane alone flows, 1 where only propane itself may.
#[must_use]
pub fn needs_by_mole(celsius: f64) -> Between {
    let enough = |kpa: f64| kpa >= AIR_KPA + INLET_KPA;
    if enough(Pure::Butane.vapour_kpa(celsius)) {
        return Between::exactly(0.0);
    }
    let from = |end: fn(Between) -> f64| {
        first((0.0, 1.0), |share| enough(end(bubble_kpa(share, celsius))))
    };
    Between::of(from(|band| band.lower), from(|band| band.upper))
}

/// Where something that grows is first enough, by halving; the upper end where it never is.
fn first((mut below, mut from): (f64, f64), enough: impl Fn(f64) -> bool) -> f64 {
    for _ in 0..60 {
        let middle = f64::midpoint(below, from);
        if enough(middle) {
            from = middle;
        } else {
            below = middle;
        }
    }
    from
}

/// Heat as gas burnt in an hour.
///
/// # Units
/// `kilowatts`: of heat, ≥ 0. Result: kg/h.
#[must_use]
pub fn burns_kg_per_h(kilowatts: Between) -> Between {
    kilowatts / NET_KWH_PER_KG
}
