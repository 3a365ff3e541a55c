//! Cards: how to use one fitting. Every kind has one, and it is words alone: adding a card is adding
//! words.

pub mod search;

use crate::vehicle::{Action, Alert, Deed, Fault, Fitting, Variable, Vehicle};

/// What a card says, in this order: start, use and stop, look after, what is normal, cautions.
pub const SECTIONS: [&str; 6] = ["start", "use", "stop", "care", "normal", "caution"];

/// The fittings with their numbers, in walking order.
#[must_use]
pub fn all(vehicle: &Vehicle) -> Vec<(usize, &Fitting)> {
    let mut found: Vec<_> = vehicle.fittings.iter().enumerate().collect();
    found.sort_by_key(|(number, _)| zones(vehicle, *number).first().copied());
    found
}

/// The zones in which a fitting is worked, by number, each once.
#[must_use]
pub fn zones(vehicle: &Vehicle, fitting: usize) -> Vec<usize> {
    let mut zones = Vec::new();
    let own = |one: &&Variable| one.fitting == fitting && one.age_of.is_none();
    for variable in vehicle.variables.iter().filter(own) {
        if !zones.contains(&variable.zone) {
            zones.push(variable.zone);
        }
    }
    zones
}

/// Every move and look of a fitting.
pub fn steps(vehicle: &Vehicle, fitting: usize) -> impl Iterator<Item = &Action> {
    let steps = vehicle.actions.iter().filter(move |action| action.fitting == fitting);
    steps.filter(|action| action.deed != Deed::Wait)
}

/// The alerts that a fitting shows, or that its card helps with.
pub fn alerts(vehicle: &Vehicle, fitting: usize) -> impl Iterator<Item = &Alert> {
    vehicle.alerts.iter().filter(move |alert| alert.cards.contains(&fitting))
}

/// What may not work of a fitting, or may not where its card helps.
pub fn faults(vehicle: &Vehicle, fitting: usize) -> impl Iterator<Item = &Fault> {
    vehicle.faults.iter().filter(move |fault| fault.cards.contains(&fitting))
}
