//! Questions about a vehicle so small that one can see what must be so.
#![allow(clippy::unwrap_used, reason = "a test may fail loudly")]

use stowfast_core::catalogue::{Catalogue, Severity};
use stowfast_core::interlock::{Goal, GoalOf};
use stowfast_core::routine::Problem;
use stowfast_core::vehicle::Vehicle;

use crate::{cases, question};

/// A vehicle of one fitting of each kind, in the zone that stands beside it. From the first zone to
/// the second one walks for 10 s.
///
/// # Panics
/// If the kinds do not read.
#[must_use]
pub fn vehicle(kinds: &[(&str, &str, &str)]) -> Vehicle {
    let named = kinds.iter().map(|(id, _, text)| (format!("kinds/{id}.toml"), *text));
    let files: Vec<(String, &str)> = named.collect();
    let files: Vec<_> = files.iter().map(|(path, text)| (path.as_str(), *text)).collect();
    let zone = |id: &str| format!("[[zone]]\nid = \"{id}\"\ntitle = \"{id}\"\n");
    let fitting = |(id, zone, _): &(&str, &str, &str)| {
        format!(
            "[[fitting]]\nid = \"{id}\"\nkind = \"{id}\"\ntitle = \"{id}\"\nzone = \"{zone}\"\n"
        )
    };
    let walk = "[[walk]]\nfrom = \"in\"\nto = \"out\"\nseconds = 10\n";
    let fitted: String = kinds.iter().map(fitting).collect();
    let head = "stowfast_pack = 1\ntitle = \"small\"\nabout = \"Made up.\"\nhome_zone = \"in\"\n";
    let pack = format!("{head}{}{}{walk}{fitted}", zone("in"), zone("out"));
    cases::vehicle(&pack, &Catalogue::from_files(&files).unwrap()).unwrap()
}

/// A question from the usual settings, in the first zone; each goal is a variable and a setting.
///
/// # Panics
/// If the vehicle has no such thing.
#[must_use]
pub fn problem<'a>(vehicle: &'a Vehicle, goals: &[(&str, &str)]) -> Problem<'a> {
    let asked = |goal: &(&str, &str)| Goal {
        of: GoalOf::Target(goal.0.to_owned()),
        any_of: vec![question::literal(vehicle, *goal)],
        fresh: false,
        severity: Severity::Damage,
    };
    let goals = goals.iter().map(asked).collect();
    question::problem(vehicle, question::usual(vehicle), goals)
}
