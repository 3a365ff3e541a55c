//! When standing water freezes: tank, pipe and boiler through one night.
//!
//! # Model
//! The water of one part is of one temperature (lumped capacitance) and loses heat to the air round it.
//! At 0 °C it stays until all of it is ice (latent heat). It is never undercooled: the first ice may
//! come as soon as 0 °C is reached. Outside, the air falls evenly to the forecast low; the earliest end
//! rests on one that falls fast and stays low ([`Night`]). Inside, the room cools like the water does, or
//! is held by its heating.
//!
//! # Units
//! °C, hours, kg, W/K. In [`Body`] kJ.
//!
//! # Source
//! Lumped capacitance: Incropera, example 5.1; Çengel, example 4-1. Pipe: ASHRAE Handbook,
//! Fundamentals, chapter 23, equation 1 ([`pipe`]). Latent heat: [`super::water`].
//!
//! # Error band
//! The formulas agree with their published examples to 0.5 and 2 %. What is not known of tank, wind
//! and night is in the bands of [`loss`] and [`Night`], which are mostly common practice without a
//! source. Not in the model: a clear sky that cools what stands below it under the air's temperature,
//! ice in a vent, and draughts.

mod body;
pub mod loss;
pub mod night;
pub mod pipe;

#[cfg(test)]
mod tests;

pub use body::{Body, Until};
pub use night::{End, Inside, Night, Place};

use night::STEP_H;

use super::Between;

/// The part that has to be ice before it hurts for certain what is narrow or shut: common practice, no
/// source. Before that an outlet or a valve may already be blocked.
pub const BURSTS: f64 = 0.1;

/// Water that stands somewhere through the night.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Part {
    /// Where.
    pub place: Place,
    /// How much. Unit: kg; of a pipe kg per metre.
    pub water_kg: Between,
    /// What it loses. Unit: W/K; of a pipe W/K per metre.
    pub loss_w_per_k: Between,
    /// How warm it is now. Unit: °C, ≥ 0.
    pub start_c: Between,
    /// What its own heater gives all night. Unit: W.
    pub heater_w: f64,
}

/// From when on something may be, mostly is, and is for certain. Unit: hours from now; `None`
/// where not before the night is over.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct When {
    /// At the earliest.
    pub earliest_h: Option<f64>,
    /// As a night mostly goes, with the middle of each band.
    pub usual_h: Option<f64>,
    /// At the latest.
    pub latest_h: Option<f64>,
}

/// When a part comes to this; `None` where how warm the air round it is cannot be told.
#[must_use]
pub fn when(part: &Part, until: Until, night: &Night) -> Option<When> {
    let each = |end| {
        let air = night.air(part.place, end)?;
        let (water_kg, start_c) = (end.of(part.water_kg), end.of(part.start_c));
        Some(move |loss_w_per_k: f64| {
            let body = Body { water_kg, loss_w_per_k };
            let warmer = if loss_w_per_k > 0.0 { part.heater_w / loss_w_per_k } else { 0.0 };
            body.reaches(until, start_c, air.iter().map(|air| air + warmer), STEP_H)
        })
    };
    // What is colder than the air gains by what it else loses by: both ends of its loss are looked at.
    let Between { lower, upper } = part.loss_w_per_k;
    let (early, usual, late) = (each(End::Earliest)?, each(End::Usual)?, each(End::Latest)?);
    Some(When {
        earliest_h: early(lower).into_iter().chain(early(upper)).reduce(f64::min),
        usual_h: usual(part.loss_w_per_k.middle()),
        latest_h: late(lower).zip(late(upper)).map(|(slow, fast)| slow.max(fast)),
    })
}

/// How warm a part is now and after each step of [`night::STEP_H`]: the coldest that it may be, as a night
/// mostly goes, the warmest. `None` where how warm the air round it is cannot be told. Unit: °C.
#[must_use]
pub fn course(part: &Part, night: &Night) -> Option<Vec<[f64; 3]>> {
    let of = |air: &[f64], start_c, water_kg, loss_w_per_k: f64| {
        let warmer = if loss_w_per_k > 0.0 { part.heater_w / loss_w_per_k } else { 0.0 };
        let air = air.iter().map(|air| air + warmer);
        Body { water_kg, loss_w_per_k }.course(start_c, air, STEP_H)
    };
    // Little water follows the air soonest, down and up: every corner of both bands is looked at.
    let every = |end: End, better: fn(f64, f64) -> f64| {
        let air = night.air(part.place, end)?;
        let corner = |water_kg, loss| of(&air, end.of(part.start_c), water_kg, loss);
        let (water, loss) = (part.water_kg, part.loss_w_per_k);
        let corners =
            [water.lower, water.upper].map(|kg| [corner(kg, loss.lower), corner(kg, loss.upper)]);
        corners.into_iter().flatten().reduce(|one, other| {
            one.into_iter().zip(other).map(|(one, other)| better(one, other)).collect()
        })
    };
    let (cold, warm) = (every(End::Earliest, f64::min)?, every(End::Latest, f64::max)?);
    let air = night.air(part.place, End::Usual)?;
    let usual = of(&air, part.start_c.middle(), part.water_kg.middle(), part.loss_w_per_k.middle());
    let all = cold.into_iter().zip(usual).zip(warm);
    Some(all.map(|((cold, usual), warm)| [cold, usual, warm]).collect())
}
