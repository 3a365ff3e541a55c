//! Which reserve ends first, and when: chances, not only ranges.
//!
//! # Model
//! What is used of a reserve is a *gamma process*: in `t` days Gamma(shape `k t`, rate `θ`), so a day's
//! use lies about its average by a share of 1/√`k`, and never runs back. The average `k/θ` is not
//! known: `θ` is Gamma(`a`, `b`). The update is conjugate: after `u` was used in `d` days it is
//! Gamma(`a + k d`, `b + u`). Then what is used in `t` days is `b + u` times a beta prime variable, and
//! the chance that `L` lasts longer is the regularised incomplete beta function at
//! `L / (L + b + u)`, with `k t` and `a + k d`.
//!
//! - Before anything is read: a published range, which counts as the middle 80 % of the average.
//! - Where nothing is published: `a = b = 0`, so that nothing speaks but what was read of this vehicle.
//! - What was used lies somewhere in the band that the readings allow (five points of Gauss and
//!   Legendre, weighed by how likely the published range makes each; alike where there is none), and
//!   what is left anywhere in its own band alike (in closed form).
//! - A change of habits slows or quickens the clock from now on: what was used before stays used.
//!
//! Reserves are taken to run down apart from each other. No point is drawn at random.
//!
//! # Units
//! Amounts: one unit of the caller's choice for each reserve. Times: days.
//!
//! # Source
//! Conjugate gamma: definition (Bayes). Beta prime from two gammas, and the functions: NIST Digital
//! Library of Mathematical Functions, 8.17 (from memory, to be checked); its recurrence
//! 8.17.18 gives the mean over a level. Quantiles of a gamma by cubes: Wilson and Hilferty 1931 (from
//! memory, to be checked). How much days differ: common practice, no source.
//!
//! # Error band
//! Quantiles and chances are given for [`UNEVEN`], [`USUAL`] and [`EVEN`] days. Cold, guests and travel
//! that nobody told of are in none of them, and that fresh and waste water run together is not either.

mod beta;
mod curve;
mod race;
mod rate;
#[cfg(test)]
mod tests;

pub use beta::beta_share;
pub use curve::{Curve, Left};
pub use race::{HORIZON_DAYS, Race, Runner, race};
pub use rate::{Rate, Seen};

/// Shape of a day's use where one day is much like the next: it differs by about a third of the
/// average. Common practice, no source.
pub const EVEN: f64 = 8.0;
/// The usual: it differs by half of the average. Common practice, no source.
pub const USUAL: f64 = 4.0;
/// No day like another: it differs by seven tenths of the average. Common practice, no source.
pub const UNEVEN: f64 = 2.0;
