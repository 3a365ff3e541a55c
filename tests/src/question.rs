//! Questions to the planner: a vehicle from its file, what is believed, and what is wanted.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test may fail loudly"
)]

use std::collections::{BTreeMap, BTreeSet};

use stowfast_core::catalogue::Catalogue;
use stowfast_core::interlock::{Goal, goals};
use stowfast_core::pack;
use stowfast_core::routine::{Plan, Problem};
use stowfast_core::vehicle::{AgeOf, Literal, Settings, Variable, Vehicle};

/// The file of vehicle (a).
pub const A: &str = include_str!("../../demo-data/a/pack.toml");
/// The file of vehicle (b).
pub const B: &str = include_str!("../../demo-data/b/pack.toml");
/// The file of vehicle (c).
pub const C: &str = include_str!("../../demo-data/c/pack.toml");

/// Vehicle (a) hooked up.
pub const HOOKED_UP: &[(&str, &str)] = &[
    ("handbrake.lever", "on"),
    ("post.supply", "live"),
    ("post.switch", "on"),
    ("lead.coil", "uncoiled"),
    ("lead.vehicle_end", "in"),
    ("lead.post_end", "in"),
    ("inlet_flap.leaf", "open"),
    ("mains_switch.lever", "on"),
    ("mains_switch.rcd", "tested"),
];

/// A vehicle from the text of its file.
///
/// # Panics
/// If it does not read.
#[must_use]
pub fn vehicle(text: &str) -> Vehicle {
    let catalogue = Catalogue::built_in().unwrap();
    let pack = pack::read("made up", text.as_bytes(), catalogue);
    Vehicle::new(&pack.unwrap_or_else(|error| panic!("{error}")), catalogue).unwrap()
}

/// What nobody has said anything of, but for `facts`.
#[must_use]
pub fn assumed(vehicle: &Vehicle, facts: &[(&str, &str)]) -> Vec<Settings> {
    told(vehicle, vehicle.variables.iter().map(|one| one.assume).collect(), facts)
}

/// `beliefs`, but for `facts`.
///
/// # Panics
/// If the vehicle has no such thing.
#[must_use]
pub fn told(
    vehicle: &Vehicle,
    mut beliefs: Vec<Settings>,
    facts: &[(&str, &str)],
) -> Vec<Settings> {
    for fact in facts {
        let fact = literal(vehicle, *fact);
        beliefs[fact.variable] = fact.settings;
    }
    beliefs
}

/// That something has a setting.
///
/// # Panics
/// If the vehicle has no such thing.
#[must_use]
pub fn literal(vehicle: &Vehicle, (id, setting): (&str, &str)) -> Literal {
    let variable = vehicle.variable(id).unwrap();
    let settings = Settings::one(vehicle.setting(variable, setting).unwrap());
    Literal { variable, settings }
}

/// Each thing at the setting that is usual for it, and for long.
#[must_use]
pub fn usual(vehicle: &Vehicle) -> Vec<Settings> {
    let usual = |one: &Variable| match one.age_of {
        Some(age) if vehicle.variables[age.variable].usual == age.setting => AgeOf::OLD,
        Some(_) => AgeOf::YOUNG,
        None => one.usual,
    };
    vehicle.variables.iter().map(|one| Settings::one(usual(one))).collect()
}

/// From `beliefs`, of which nothing is fresh, at the vehicle's home zone.
#[must_use]
pub fn problem(vehicle: &Vehicle, beliefs: Vec<Settings>, goals: Vec<Goal>) -> Problem<'_> {
    Problem {
        vehicle,
        fresh: vec![false; beliefs.len()],
        beliefs,
        stuck: BTreeSet::new(),
        ripens_s: BTreeMap::new(),
        zone: vehicle.home,
        goals,
    }
}

/// What a target asks, where `beliefs` hold.
///
/// # Panics
/// If there is no such target.
#[must_use]
pub fn asked(vehicle: &Vehicle, target: &str, beliefs: &[Settings]) -> Vec<Goal> {
    goals(vehicle, Catalogue::built_in().unwrap().target(target).unwrap(), beliefs).unwrap()
}

/// The steps of a plan, by id.
#[must_use]
pub fn ids(vehicle: &Vehicle, plan: &Plan) -> Vec<String> {
    plan.steps.iter().map(|step| vehicle.actions[*step].id.clone()).collect()
}
