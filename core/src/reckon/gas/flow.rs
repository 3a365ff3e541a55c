//! How much a cylinder gives at once before it cools itself down and frosts.

use super::{AIR_KPA, Between, bubble_kpa, first};

/// How gas is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Draw {
    /// Hour after hour: a fridge, heating.
    Steady,
    /// Half of the time.
    HalfTheTime,
    /// For no more than 20 minutes: cooking, a boiler.
    Burst,
}

/// Contents (kg) and what they give (kg/h): steadily, half of the time, for 20 minutes. Source: a consumer
/// glossary of the gas trade, its issuer not verified.
const GIVES: [(f64, [f64; 3]); 3] =
    [(5.0, [0.2, 0.5, 1.0]), (11.0, [0.3, 0.8, 1.5]), (33.0, [0.6, 1.8, 3.0])];
/// How far such a guide is out.
const GUIDE: f64 = 0.3;
/// At what the guide was measured is not said: a temperate day. Unit: °C. Common practice, no source.
const MEASURED_C: Between = Between { lower: 10.0, upper: 20.0 };
/// How much of that a cylinder gives that is nearly empty: less wall is wet. Source: the vaporisation
/// chart of a 100 lb cylinder gives a full one, and less in it less; the share itself from memory, to be
/// checked.
const NEARLY_EMPTY: f64 = 0.4;

/// What a cylinder gives before its pressure falls.
///
/// # Model
/// The guide's rate for its size, by the air's distance from the temperature at which the gas boils at
/// the air's pressure: the chart's rates fall in a straight line to 0 at propane's -42 °C.
///
/// # Units
/// `contents_kg`: when full, > 0. `left`: of that, 0 to 1. `by_mole`: moles of propane in a mole of what
/// is left. `air_c`: around the cylinder. Result: kg/h; 0 where it does not boil.
#[must_use]
pub fn gives_kg_per_h(
    contents_kg: f64,
    left: f64,
    by_mole: f64,
    air_c: f64,
    draw: Draw,
) -> Between {
    let full = guide(contents_kg, draw);
    let boils = boils_c(by_mole);
    let warmer = |boils_c: f64, measured_c: f64| {
        ((air_c - boils_c) / (measured_c - PROPANE_BOILS_C)).max(0.0)
    };
    let by_air =
        Between::of(warmer(boils.upper, MEASURED_C.upper), warmer(boils.lower, MEASURED_C.lower));
    let wet = NEARLY_EMPTY + (1.0 - NEARLY_EMPTY) * left.clamp(0.0, 1.0);
    Between::about(full, GUIDE) * by_air * wet
}

/// Where propane boils at the air's pressure. Unit: °C. Source: `CoolProp` 8.0.0.
const PROPANE_BOILS_C: f64 = -42.11;

/// Where a mixture begins to boil at the air's pressure. Unit: °C.
fn boils_c(by_mole: f64) -> Between {
    let at = |end: fn(Between) -> f64| {
        first((-45.0, 50.0), |celsius| end(bubble_kpa(by_mole, celsius)) >= AIR_KPA)
    };
    Between::of(at(|band| band.lower), at(|band| band.upper))
}

/// What the guide has for a size, in a straight line between two sizes and no more than the ends beyond.
fn guide(contents_kg: f64, draw: Draw) -> f64 {
    let which = match draw {
        Draw::Steady => 0,
        Draw::HalfTheTime => 1,
        Draw::Burst => 2,
    };
    let rate = |(_, rates): &(f64, [f64; 3])| rates.get(which).copied().unwrap_or(0.0);
    let small = GIVES.iter().rfind(|(size, _)| *size <= contents_kg);
    let large = GIVES.iter().find(|(size, _)| *size >= contents_kg);
    match (small, large) {
        (Some(small), Some(large)) if large.0 > small.0 => {
            let part = (contents_kg - small.0) / (large.0 - small.0);
            rate(small) + (rate(large) - rate(small)) * part
        }
        // A smaller one has less wall than the smallest.
        (None, Some(least)) => rate(least) * contents_kg.max(0.0) / least.0,
        (Some(only), _) => rate(only),
        (None, None) => 0.0,
    }
}
