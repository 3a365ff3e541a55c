//! Worlds: every way to pick one setting for each variable from what is believed. Slow on purpose.

use std::collections::BTreeMap;

use stowfast_core::catalogue::Severity;
use stowfast_core::interlock::Goal;
use stowfast_core::vehicle::{Action, Clause, Deed, Effect, Literal, Settings, Vehicle};

/// One setting for each of some variables.
pub type World = BTreeMap<usize, u8>;

/// Every world of some variables.
#[must_use]
pub fn worlds(beliefs: &[Settings], variables: &[usize]) -> Vec<World> {
    let mut worlds = vec![World::new()];
    for variable in variables {
        let settings = beliefs.get(*variable).copied().unwrap_or(Settings::NONE);
        worlds = worlds
            .iter()
            .flat_map(|world| {
                settings.places().map(|place| {
                    let mut longer = world.clone();
                    longer.insert(*variable, place);
                    longer
                })
            })
            .collect();
    }
    worlds
}

/// Whether a literal holds in a world that has its variable.
#[must_use]
pub fn holds(world: &World, literal: &Literal) -> bool {
    let place = world.get(&literal.variable);
    place.is_some_and(|place| Settings::one(*place).is_within(literal.settings))
}

/// The variables of some literals, each once.
#[must_use]
pub fn variables_of(literals: &[Literal]) -> Vec<usize> {
    let mut found: Vec<usize> = literals.iter().map(|literal| literal.variable).collect();
    found.sort_unstable();
    found.dedup();
    found
}

/// Whether a literal of the clause's conjunction holds in every world, for all of them.
#[must_use]
pub fn holds_everywhere(beliefs: &[Settings], literals: &[Literal]) -> bool {
    let worlds = worlds(beliefs, &variables_of(literals));
    worlds.iter().all(|world| literals.iter().all(|literal| holds(world, literal)))
}

/// Whether the conjunction holds in some world.
#[must_use]
pub fn holds_somewhere(beliefs: &[Settings], literals: &[Literal]) -> bool {
    let worlds = worlds(beliefs, &variables_of(literals));
    worlds.iter().any(|world| literals.iter().all(|literal| holds(world, literal)))
}

/// Whether the goal's disjunction holds in every world.
#[must_use]
pub fn met_everywhere(beliefs: &[Settings], goal: &Goal) -> bool {
    let worlds = worlds(beliefs, &variables_of(&goal.any_of));
    worlds.iter().all(|world| goal.any_of.iter().any(|literal| holds(world, literal)))
}

/// What an action brings about: a look only what it throws back.
fn brought(action: &Action) -> impl Iterator<Item = &Effect> {
    action.effects.iter().filter(|effect| effect.spoilt || action.deed != Deed::Look)
}

/// The worlds that an action passes through from `world`: each variable that it changes at its
/// old, its new or its middle setting, in every combination.
fn under_way(vehicle: &Vehicle, world: &World, action: &Action) -> Vec<World> {
    let mut passed = vec![world.clone()];
    for effect in brought(action).filter(|effect| world.contains_key(&effect.variable)) {
        let middle = vehicle.variables.get(effect.variable).map(|known| known.middle);
        let new = Settings::one(effect.to).or(middle.unwrap_or(Settings::NONE));
        let mut more = passed.clone();
        for place in new.places() {
            more.extend(passed.iter().map(|world| {
                let mut changed = world.clone();
                changed.insert(effect.variable, place);
                changed
            }));
        }
        passed = more;
    }
    passed
}

/// Rule 4 of the semantics, world by world: whether `action` is permitted.
#[must_use]
pub fn permitted(vehicle: &Vehicle, beliefs: &[Settings], action: &Action) -> bool {
    holds_everywhere(beliefs, &action.before)
        && !vehicle.clauses.iter().any(|clause| forbidden(vehicle, beliefs, action, clause))
}

fn forbidden(vehicle: &Vehicle, beliefs: &[Settings], action: &Action, clause: &Clause) -> bool {
    let changed = |v: usize| brought(action).any(|effect| effect.variable == v);
    let before = worlds(beliefs, &variables_of(&clause.literals));
    let passed: Vec<(&World, World)> = before
        .iter()
        .flat_map(|old| under_way(vehicle, old, action).into_iter().map(move |new| (old, new)))
        .collect();
    let meets =
        passed.iter().any(|(_, now)| clause.literals.iter().all(|literal| holds(now, literal)));
    let brings = |literal: &Literal| {
        changed(literal.variable)
            && arrives(vehicle, action, literal)
            && !before.iter().all(|world| holds(world, literal))
    };
    clause.severity != Severity::Nuisance && meets && clause.literals.iter().any(brings)
}

/// Whether the action brings the literal's variable to a setting, on the way or in the end, that
/// makes the literal true.
fn arrives(vehicle: &Vehicle, action: &Action, literal: &Literal) -> bool {
    brought(action).filter(|effect| effect.variable == literal.variable).any(|effect| {
        let middle = vehicle.variables.get(effect.variable).map(|known| known.middle);
        let mut places =
            Settings::one(effect.to).places().chain(middle.into_iter().flat_map(Settings::places));
        places.any(|place| holds(&World::from([(literal.variable, place)]), literal))
    })
}
