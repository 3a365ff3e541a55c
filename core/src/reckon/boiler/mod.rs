//! When the boiler is hot, and how many showers that is.
//!
//! # Model
//! The water of the boiler is of one temperature (mixed by what heats it), and loses heat to the room in
//! proportion to how much warmer it is. In time it gets power × time, of which the losses are left out:
//! t = −τ ln(1 − UA ΔT / (P − UA (T0 − Ta))), τ = C/UA; without losses t = E/P, with E of the
//! [`super::water`] tables. Showers: cold water comes in as hot water goes out, and lies below it or
//! mixes with it; the truth lies between the two.
//!
//! # Units
//! L, °C, W, W/K, h; energy kJ.
//!
//! # Source
//! First law; energy and time without losses: `CoolProp` 8.0.0 (`tests/data/boiler_heatup.csv`).
//!
//! # Error band
//! Without losses 0.3 %. Efficiency of gas, losses and mains voltage: the bands below.

mod shower;

#[cfg(test)]
mod tests;

pub use shower::{left_c, mixed_l};

use super::Between;
use super::water::{density_kg_per_l, heat_kj_per_kg};

const KJ_PER_H_PER_W: f64 = 3.6;

/// What of the burner's power comes into the water. Common practice, no source.
pub const GAS_EFFICIENCY: Between = Between { lower: 0.7, upper: 0.9 };

/// Mains at a pitch against the voltage that an element's power is told for, squared: 207 to 253 V for
/// 230 V. EN 50160, from memory, to be checked.
pub const MAINS: Between = Between { lower: 0.81, upper: 1.21 };

/// What a boiler of some volume loses, for each litre to the two thirds. Unit: W/K. Common practice, no
/// source: about 1 W/K in ten litres, a factor of 2 either way.
const LOSS: Between = Between { lower: 0.1, upper: 0.45 };

/// As often a range of temperatures is halved: 100 K come to less than 0.001 K.
const HALVINGS: u32 = 17;

/// What heats, by the powers that its plates tell. Unit: W, ≥ 0.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Source {
    /// An element on mains.
    Electric(f64),
    /// A burner.
    Gas(f64),
    /// Both at once.
    Mixed {
        /// The element. Unit: W.
        electric_w: f64,
        /// The burner. Unit: W.
        gas_w: f64,
    },
}

impl Source {
    /// What comes into the water. Unit: W.
    #[must_use]
    pub fn power_w(self) -> Between {
        match self {
            Self::Electric(w) => MAINS * w,
            Self::Gas(w) => GAS_EFFICIENCY * w,
            Self::Mixed { electric_w, gas_w } => {
                Self::Electric(electric_w).power_w() + Self::Gas(gas_w).power_w()
            }
        }
    }
}

/// A boiler full of water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Boiler {
    /// What it holds. Unit: L, > 0.
    pub volume_l: f64,
    /// What it loses for each degree above the room. Unit: W/K, ≥ 0.
    pub loss_w_per_k: f64,
    /// The room. Unit: °C.
    pub room_c: f64,
}

/// Heating up, in numbers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Heating {
    /// How long. Unit: h.
    pub hours: f64,
    /// What came in. Unit: kJ.
    pub in_kj: f64,
    /// What the water has more. Unit: kJ.
    pub stored_kj: f64,
    /// What went to the room. Unit: kJ.
    pub lost_kj: f64,
}

/// The band of what a boiler of this volume loses. Units: L; W/K.
#[must_use]
pub fn loss_w_per_k(volume_l: f64) -> Between {
    let edge = libm::cbrt(volume_l.max(0.0));
    LOSS * (edge * edge)
}

/// Energy from one temperature to another, of what is filled in at the first. Units: L, °C; kJ.
#[must_use]
pub fn energy_kj(volume_l: f64, from_c: f64, to_c: f64) -> f64 {
    volume_l * density_kg_per_l(from_c) * (heat_kj_per_kg(to_c) - heat_kj_per_kg(from_c))
}

impl Boiler {
    /// Heating it up with so much; `None` where it never comes to that. Colder than it is: at once.
    ///
    /// # Units
    /// °C, W.
    #[must_use]
    pub fn heat(&self, from_c: f64, to_c: f64, power_w: f64) -> Option<Heating> {
        if to_c <= from_c {
            return Some(Heating { hours: 0.0, in_kj: 0.0, stored_kj: 0.0, lost_kj: 0.0 });
        }
        let stored_kj = energy_kj(self.volume_l, from_c, to_c);
        let warms_k = to_c - from_c;
        let gains_w = power_w - self.loss_w_per_k * (from_c - self.room_c);
        let lost_share = self.loss_w_per_k * warms_k / gains_w;
        if gains_w <= 0.0 || lost_share >= 1.0 {
            return None;
        }
        // τ ln(1/(1 − x)) UA ΔT / x, written so that it holds without losses too.
        let slower = if lost_share > 0.0 { -libm::log1p(-lost_share) / lost_share } else { 1.0 };
        let hours = stored_kj / (gains_w * KJ_PER_H_PER_W) * slower;
        let in_kj = power_w * KJ_PER_H_PER_W * hours;
        Some(Heating { hours, in_kj, stored_kj, lost_kj: in_kj - stored_kj })
    }

    /// How warm it is after heating so long with so much, at the most as warm as it should get.
    ///
    /// # Units
    /// °C, W, h.
    #[must_use]
    pub fn warmed_c(&self, from_c: f64, to_c: f64, power_w: f64, hours: f64) -> f64 {
        let done = |celsius: f64| {
            self.heat(from_c, celsius, power_w).is_some_and(|heating| heating.hours <= hours)
        };
        if done(to_c) {
            return to_c.max(from_c);
        }
        let half = |(under, above): (f64, f64), _| {
            let middle = under.midpoint(above);
            if done(middle) { (middle, above) } else { (under, middle) }
        };
        (0..HALVINGS).fold((from_c, to_c), half).0
    }

    /// How warm it is after so long without heat. Units: °C, h.
    #[must_use]
    pub fn cooled_c(&self, from_c: f64, hours: f64) -> f64 {
        let kj_per_k = self.volume_l * density_kg_per_l(from_c) * super::water::COOLING_KJ_PER_KG_K;
        let nearer = libm::exp(-hours * self.loss_w_per_k * KJ_PER_H_PER_W / kj_per_k);
        self.room_c + (from_c - self.room_c) * nearer
    }
}

/// How long a boiler takes, with every band at each end. Unit: h.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Takes {
    /// At the least; `None` where it never comes to that.
    pub least: Option<Heating>,
    /// At the most; `None` where it may never come to that.
    pub most: Option<Heating>,
}

/// From cold to hot by this source, in a room of this warmth.
///
/// # Units
/// L, °C.
#[must_use]
pub fn takes(volume_l: f64, from_c: Between, to_c: f64, source: Source, room_c: Between) -> Takes {
    let (power_w, loss) = (source.power_w(), loss_w_per_k(volume_l));
    let end = |loss_w_per_k, room_c, from_c, power_w| {
        Boiler { volume_l, loss_w_per_k, room_c }.heat(from_c, to_c, power_w)
    };
    Takes {
        least: end(loss.lower, room_c.upper, from_c.upper, power_w.upper),
        most: end(loss.upper, room_c.lower, from_c.lower, power_w.lower),
    }
}
