//! The liquid: what a litre of it weighs, and what heat turns it into gas.

use super::{Between, Pure};

/// How warm the liquid may be when its volume is read, where nobody measured it. Unit: °C. Common
/// practice, no source.
pub const LIQUID_C: Between = Between { lower: -20.0, upper: 40.0 };
/// How far a commercial grade may be from the pure gas, either way: it holds others too.
const COMMERCIAL: f64 = 0.02;
const KG_PER_M3_IN_KG_PER_L: f64 = 1_000.0;
/// Source: definition (a watt for an hour is 3.6 kJ).
const KJ_PER_WH: f64 = 3.6;

impl Pure {
    /// Coefficients of density (kg/m³) and of the heat of evaporation (kJ/kg), by the distance from the
    /// critical temperature: fitted to `CoolProp` 8.0.0 from -45 to 50 °C, 0.02 and 0.5 % at most off.
    fn liquid(self) -> ([f64; 3], [f64; 2]) {
        match self {
            Self::Propane => ([211.4, 436.9, 144.57], [632.29, -35.7]),
            Self::Butane => ([237.2, 422.08, 178.98], [584.14, -40.6]),
            Self::Isobutane => ([231.23, 422.36, 173.93], [549.8, -30.45]),
        }
    }

    /// How far a temperature is from the critical one, as a share of it.
    fn away(self, celsius: f64) -> f64 {
        1.0 - (celsius.clamp(-45.0, 50.0) + 273.15) / self.wagner().0
    }

    /// What a litre of its liquid weighs.
    ///
    /// # Units
    /// `celsius`: -45 to 50 °C; what lies beyond counts as the end. Result: kg/L.
    #[must_use]
    pub fn kg_per_l(self, celsius: f64) -> f64 {
        let ([a, b, c], away) = (self.liquid().0, self.away(celsius));
        (a + b * libm::cbrt(away) + c * away) / KG_PER_M3_IN_KG_PER_L
    }

    /// The heat that turns a kilogram of its liquid into gas.
    ///
    /// # Units
    /// As of [`Pure::kg_per_l`]. Result: kJ/kg.
    #[must_use]
    pub fn evaporates_kj_per_kg(self, celsius: f64) -> f64 {
        let ([a, b], away) = (self.liquid().1, self.away(celsius));
        (a + b * away) * libm::pow(away, 0.38)
    }
}

/// What a litre of what is sold weighs: a mixture fills as much room as its parts do.
///
/// # Units
/// `by_mass`: kg of propane in a kg, 0 to 1. `celsius`: of the liquid. Result: kg/L, give or take 2 % for
/// commercial grades.
#[must_use]
pub fn kg_per_l(by_mass: Between, celsius: Between) -> Between {
    let at = |propane: f64, celsius: f64| {
        let litres = propane / Pure::Propane.kg_per_l(celsius)
            + (1.0 - propane) / Pure::Butane.kg_per_l(celsius);
        1.0 / litres
    };
    let (light, heavy) = (at(by_mass.upper, celsius.upper), at(by_mass.lower, celsius.lower));
    Between::of(light * (1.0 - COMMERCIAL), heavy * (1.0 + COMMERCIAL))
}

/// The heat that so much gas takes out of cylinder and air as it evaporates.
///
/// # Units
/// `kg_per_h`: kg/h, ≥ 0. `by_mass`: kg of propane in a kg, 0 to 1. Result: W.
#[must_use]
pub fn evaporates_w(kg_per_h: Between, by_mass: f64, celsius: f64) -> Between {
    let kj_per_kg = by_mass * Pure::Propane.evaporates_kj_per_kg(celsius)
        + (1.0 - by_mass) * Pure::Butane.evaporates_kj_per_kg(celsius);
    kg_per_h * Between::about(kj_per_kg / KJ_PER_WH, COMMERCIAL)
}
