//! Guarantee 2: no permitted move breaks a rule that was kept.

use stowfast_core::interlock::{Standing, is_permitted, standing};
use stowfast_core::vehicle::{Action, Clause, Deed, Settings, Vehicle};
use stowfast_tests::components::{
    Component, STATES_MAX, alone, choices, components, count, joined, numbered, weighty,
};

/// How many states were moved from, and how many moves and looks were permitted.
pub(crate) fn rules_are_kept(vehicle: &Vehicle) -> (u128, u64) {
    let (mut states, mut moves) = (0, 0);
    for whole in components(vehicle) {
        for component in small_enough(vehicle, whole) {
            let (from, permitted) = search(&alone(vehicle, &component), &component);
            states += from;
            moves += permitted;
        }
    }
    println!("states moved from: {states}; permitted moves and looks: {moves}");
    (states, moves)
}

/// A component, or where it is too large each of its rules by itself. A rule alone permits whatever
/// all of them permit, and more.
fn small_enough(vehicle: &Vehicle, whole: Component) -> Vec<Component> {
    let all: Vec<_> = whole.all().iter().map(|one| choices(vehicle, *one, false)).collect();
    if count(&all) <= STATES_MAX {
        return vec![whole];
    }
    println!("too large, so rule by rule: {}", whole.ids(vehicle));
    let rules = vehicle.clauses.iter().filter(|one| weighty(one));
    let mine = rules.filter(|one| one.literals.iter().any(|literal| whole.owns(literal)));
    mine.flat_map(|one| joined(vehicle, &std::iter::once(one.literals.as_slice()))).collect()
}

/// Whether the action is a look at something that the clause speaks of: what it shows was so before.
fn reveals(action: &Action, clause: &Clause) -> bool {
    let mut own = action.effects.iter().filter(|effect| !effect.spoilt);
    action.deed == Deed::Look
        && own.any(|effect| clause.literals.iter().any(|one| one.variable == effect.variable))
}

fn search(vehicle: &Vehicle, component: &Component) -> (u128, u64) {
    let variables = component.all();
    let choices: Vec<_> = variables.iter().map(|one| choices(vehicle, *one, false)).collect();
    let touches = |one: &&Action| one.effects.iter().any(|e| variables.contains(&e.variable));
    let actions: Vec<_> = vehicle.actions.iter().filter(touches).collect();
    let mut beliefs: Vec<Settings> = vehicle.variables.iter().map(|one| one.all).collect();
    let states = count(&choices);
    let mut moves = 0;
    for state in 0..states {
        for (variable, choice) in variables.iter().zip(numbered(&choices, state)) {
            beliefs[*variable] = choice.0;
        }
        for action in actions.iter().filter(|one| is_permitted(vehicle, &beliefs, one)) {
            moves += 1;
            keeps(vehicle, &beliefs, action);
        }
    }
    (states, moves)
}

fn keeps(vehicle: &Vehicle, beliefs: &[Settings], action: &Action) {
    let mut after = beliefs.to_vec();
    action.apply(&mut after);
    for clause in &vehicle.clauses {
        let broken = standing(&after, clause) == Standing::Broken;
        let was = standing(beliefs, clause) == Standing::Broken;
        let so = !broken || was || reveals(action, clause);
        assert!(so, "{} breaks {}", action.id, clause.id);
    }
}
