//! Load: what each axle carries, and what that leaves.
//!
//! # Model
//! Two axles; each mass loads them by its lever. What lies behind the rear axle lifts the front one. A
//! third axle beside one of them shares its load.
//!
//! # Units
//! Masses and axle loads: kg. Places: m behind the front axle; before it is negative.
//!
//! # Source
//! Statics. 75 kg for each person: Commission Regulation (EU) No 1230/2012, Annex I, Part A, 2.6.2.1.
//! Conventional load: EN 1646-2, by a legal publisher's article on it.
//!
//! # Error band
//! That of each mass. What the maker states of the empty vehicle may be 3 per cent out: from memory, to
//! be checked. Only a weighbridge tells.

mod change;
#[cfg(test)]
mod tests;
mod tyre;

pub use change::{Change, best};
pub use tyre::{axle_kg, tyre_kg};

use super::Between;

/// What a person is reckoned with. Unit: kg. Source: Regulation (EU) No 1230/2012.
pub const PERSON_KG: f64 = 75.0;
/// How far the maker's mass of the empty vehicle may be out, either way: from memory, to be checked.
pub const STATED_SHARE: f64 = 0.03;
/// What a litre of diesel weighs. Unit: kg.
///
/// # Source
/// UK Government GHG Conversion Factors 2023.
pub const DIESEL_KG_PER_L: f64 = 0.83;
/// How full the fuel tank is in running order. Source: Regulation (EU) No 1230/2012, Article 2(4)(a).
pub const FUEL_SHARE: f64 = 0.9;

/// A mass and where it stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mass {
    /// What it weighs; negative where it is taken away. Unit: kg.
    pub kg: Between,
    /// Its place. Unit: m behind the front axle.
    pub at_m: f64,
}

/// What stands on the axles, or what is left to their limits. Unit: kg.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Loads {
    /// On the front axle.
    pub front_kg: Between,
    /// On the rear axle, or all that is not in front.
    pub rear_kg: Between,
    /// In all.
    pub total_kg: Between,
}

/// The most that is permitted. Unit: kg.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// On the front axle.
    pub front_kg: f64,
    /// On the rear axle.
    pub rear_kg: f64,
    /// In all: as a rule less than both together.
    pub total_kg: f64,
}

impl Loads {
    /// What stands on two axles before anything is added.
    #[must_use]
    pub fn of(front_kg: Between, rear_kg: Between) -> Self {
        Self { front_kg, rear_kg, total_kg: front_kg + rear_kg }
    }

    /// With one mass more.
    ///
    /// # Units
    /// `wheelbase_m`: m, > 0.
    #[must_use]
    pub fn and(self, mass: Mass, wheelbase_m: f64) -> Self {
        let to_rear = mass.at_m / wheelbase_m;
        Self {
            front_kg: self.front_kg + mass.kg * (1.0 - to_rear),
            rear_kg: self.rear_kg + mass.kg * to_rear,
            total_kg: self.total_kg + mass.kg,
        }
    }

    /// With all of some masses.
    ///
    /// # Units
    /// `wheelbase_m`: m, > 0.
    #[must_use]
    pub fn with(self, masses: &[Mass], wheelbase_m: f64) -> Self {
        masses.iter().fold(self, |loads, mass| loads.and(*mass, wheelbase_m))
    }

    /// What is left to the limits; below 0 is over.
    #[must_use]
    pub fn margins(self, most: &Limits) -> Self {
        let left = |most: f64, load: Between| Between::exactly(most) - load;
        Self {
            front_kg: left(most.front_kg, self.front_kg),
            rear_kg: left(most.rear_kg, self.rear_kg),
            total_kg: left(most.total_kg, self.total_kg),
        }
    }

    /// Front, rear and all.
    #[must_use]
    pub fn each(self) -> [Between; 3] {
        [self.front_kg, self.rear_kg, self.total_kg]
    }
}

/// Whether a margin is one: `None` where it may be over.
#[must_use]
pub fn within(margin_kg: Between) -> Option<bool> {
    match (margin_kg.lower >= 0.0, margin_kg.upper < 0.0) {
        (true, _) => Some(true),
        (false, true) => Some(false),
        (false, false) => None,
    }
}

/// What is left for luggage with every seat taken: what is permitted, less running order (its driver
/// included), less the other people, less what is fitted to order.
///
/// # Units
/// kg; `seats`: with the driver's, ≥ 1.
#[must_use]
pub fn payload_kg(most_kg: f64, running_kg: f64, fitted_kg: f64, seats: u32) -> f64 {
    most_kg - running_kg - fitted_kg - PERSON_KG * f64::from(seats.saturating_sub(1))
}

/// The least that a maker must leave for luggage: 10 kg for each person and each metre.
///
/// # Units
/// `seats`: with the driver's. `length_m`: m. Result: kg.
///
/// # Source
/// Regulation (EU) No 1230/2012, Annex I, Part A, 2.6.4.1.2.
#[must_use]
pub fn least_payload_kg(seats: u32, length_m: f64) -> f64 {
    10.0 * (f64::from(seats) + length_m)
}

/// What people and their effects count for by convention: 75 kg for each person beside the driver, who is
/// counted in running order, 10 kg of effects for each person with the driver, and 10 kg for each metre. It asks for a full fresh tank in running order:
/// where the papers count less water, what is beyond that needs room as well.
///
/// # Units
/// As of [`least_payload_kg`].
///
/// # Source
/// EN 1646-2; the driver's 75 kg in running order as Regulation (EU) No 1230/2012, Article 2(4)(a).
#[must_use]
pub fn conventional_kg(seats: u32, length_m: f64) -> f64 {
    PERSON_KG * f64::from(seats.saturating_sub(1)) + least_payload_kg(seats, length_m)
}
