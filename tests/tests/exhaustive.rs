//! Every state of vehicles (a) and (b) and of fifty drawn ones, component by component (semantics
//! 19): "ready to drive" is never Clear while a hazard of the road is open or was not looked at, and
//! no permitted move breaks a rule that was kept.
//!
//! Components are the connected parts of the graph of danger and damage clauses, without the hubs;
//! each is searched for every assignment of the hubs that its clauses name.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    clippy::print_stdout,
    clippy::too_many_lines,
    reason = "a test may fail loudly"
)]

use std::collections::{BTreeMap, BTreeSet};

use stowfast_core::catalogue::{Catalogue, Severity};
use stowfast_core::interlock::{
    Goal, GoalOf, Standing, VerdictKind, goals, is_permitted, standing, verdict,
};
use stowfast_core::pack;
use stowfast_core::routine::{Outcome, Problem, plan};
use stowfast_core::vehicle::{Action, Clause, Deed, Literal, Settings, Vehicle};
use stowfast_tests::cases;
use stowfast_tests::checker::check;
use stowfast_tests::choices::Choices;
use stowfast_tests::judge::{Judged, judge};
use stowfast_tests::oracle::{Answer, solve};
use stowfast_tests::packs::{self, Size};
use stowfast_tests::worlds::holds_somewhere;

const A: &str = include_str!("../../demo-data/a/pack.toml");
const B: &str = include_str!("../../demo-data/b/pack.toml");
/// Variables whose change is a barrier: every rule of theirs is off while they change.
const HUBS: [(&str, &str); 7] = [
    ("engine", "wheels"),
    ("engine", "running"),
    ("post", "supply"),
    ("post", "switch"),
    ("main_switch", "lever"),
    ("main_switch", "rcd"),
    ("pitch", "flame"),
];
/// Most states of one component.
const STATES_MAX: u128 = 1_000_000;

fn vehicle(pack: &str) -> Vehicle {
    let catalogue = Catalogue::built_in().unwrap();
    Vehicle::new(&pack::read("a", pack.as_bytes(), catalogue).unwrap(), catalogue).unwrap()
}

fn weighty(clause: &Clause) -> bool {
    clause.severity != Severity::Nuisance
}

/// Variables that stand in one clause, directly or through others, without hubs.
struct Component {
    variables: Vec<usize>,
    hubs: Vec<usize>,
}

fn hubs(vehicle: &Vehicle) -> BTreeSet<usize> {
    let of = |(kind, name): &(&str, &str)| {
        let fitted = vehicle.of_kind(kind).filter_map(|(_, one)| vehicle.variable_of(one, name));
        fitted.collect::<Vec<_>>()
    };
    HUBS.iter().flat_map(of).collect()
}

fn components(vehicle: &Vehicle) -> Vec<Component> {
    let hubs = hubs(vehicle);
    let mut parts: Vec<BTreeSet<usize>> = Vec::new();
    for clause in vehicle.clauses.iter().filter(|clause| weighty(clause)) {
        let own = clause.literals.iter().map(|one| one.variable).filter(|one| !hubs.contains(one));
        let mut joined: BTreeSet<usize> = own.collect();
        parts.retain(|part| {
            let apart = part.is_disjoint(&joined);
            if !apart {
                joined.extend(part);
            }
            apart
        });
        if !joined.is_empty() {
            parts.push(joined);
        }
    }
    let of = |part: BTreeSet<usize>| {
        let clauses = vehicle.clauses.iter().filter(|clause| weighty(clause));
        let mine =
            clauses.filter(|clause| clause.literals.iter().any(|one| part.contains(&one.variable)));
        let named: BTreeSet<usize> =
            mine.flat_map(|one| &one.literals).map(|one| one.variable).collect();
        Component {
            hubs: named.intersection(&hubs).copied().collect(),
            variables: part.into_iter().collect(),
        }
    };
    parts.into_iter().map(of).collect()
}

/// What can be believed of a variable: each setting alone, or nothing known; and, where `looks`
/// says that freshness counts, each setting stale and fresh.
fn choices(vehicle: &Vehicle, variable: usize, looks: bool) -> Vec<(Settings, bool)> {
    let all = vehicle.variables[variable].all;
    let single = |fresh: bool| all.places().map(move |place| (Settings::one(place), fresh));
    let mut choices: Vec<_> = single(false).collect();
    if looks {
        choices.extend(single(true));
    }
    choices.push((all, false));
    choices
}

/// Calls `each` with every combination of the choices.
fn every(choices: &[Vec<(Settings, bool)>], mut each: impl FnMut(&[usize])) -> u128 {
    let mut at = vec![0; choices.len()];
    let mut count = 0;
    loop {
        each(&at);
        count += 1;
        let Some(place) = (0..at.len()).find(|place| at[*place] + 1 < choices[*place].len()) else {
            return count;
        };
        at[place] += 1;
        at[..place].fill(0);
    }
}

fn names(vehicle: &Vehicle, variables: &[usize]) -> String {
    let ids: Vec<_> = variables.iter().map(|one| vehicle.variables[*one].id.as_str()).collect();
    ids.join(", ")
}

/// The danger clauses that speak of moving wheels and of the component, whatever the goals say.
fn road_clauses(vehicle: &Vehicle, component: &Component, moving: Literal) -> Vec<usize> {
    let clauses = vehicle.clauses.iter().enumerate();
    let danger = clauses.filter(|(_, clause)| clause.severity == Severity::Danger);
    danger
        .filter(|(_, clause)| {
            let mut literals = clause.literals.iter();
            let of_road = literals
                .clone()
                .any(|one| one.variable == moving.variable && one.settings.meets(moving.settings));
            of_road && literals.any(|one| component.variables.contains(&one.variable))
        })
        .map(|(number, _)| number)
        .collect()
}

#[test]
fn clear_is_never_given_while_a_hazard_of_the_road_is_open_or_not_looked_at() {
    assert_eq!(clear_is_safe(&vehicle(A)), (STATES_OF_A, HAZARDS_OF_A), "look why");
    // Where the owner may choose for a trip that a cylinder stays open: two rules more, for the pair
    // and for where it is forbidden.
    let guard = "road_protection = \"crash_sensor\", open_on_the_road_allowed = true";
    let guarded = A.replacen("road_protection = \"hose_rupture\"", guard, 1);
    assert_eq!(clear_is_safe(&vehicle(&guarded)), (STATES_GUARDED, HAZARDS_OF_A + 2), "look why");
}

/// Vehicle (b), the small van.
#[test]
fn the_small_van_is_searched_too() {
    let van = vehicle(B);
    let (states, hazards) = clear_is_safe(&van);
    let (from, moves) = rules_are_kept(&van);
    println!("{states} states, {hazards} hazards; {from} moved from, {moves} permitted");
    assert_eq!((states, hazards, from), (724_721, 17, 148_439), "the space changed: look why");
    assert!(moves > 700_000, "only {moves}");
}

/// How many states the search covers, and how many danger clauses of the road.
fn clear_is_safe(vehicle: &Vehicle) -> (u128, usize) {
    let target = Catalogue::built_in().unwrap().target("ready_to_drive").unwrap();
    let asked = goals(vehicle, target, &[]).unwrap();
    let fresh_asked: BTreeSet<usize> = asked
        .iter()
        .filter(|goal| goal.fresh)
        .flat_map(|goal| goal.any_of.iter().map(|one| one.variable))
        .collect();
    let wheels = vehicle.variable("engine.wheels").unwrap();
    let running = vehicle.variable("engine.running").unwrap();
    let one = |variable: usize, name: &str| Settings::one(vehicle.setting(variable, name).unwrap());
    let (moving, on) = (one(wheels, "moving"), one(running, "on"));
    let moving_wheels = Literal { variable: wheels, settings: moving };
    let (mut states, mut product, mut clear, mut hazards) = (0, 1_u128, 0, 0);
    for component in components(vehicle) {
        let mine: Vec<Goal> = asked
            .iter()
            .filter(|goal| {
                goal.any_of.iter().any(|one| component.variables.contains(&one.variable))
            })
            .cloned()
            .collect();
        let road = road_clauses(vehicle, &component, moving_wheels);
        let asked_for = |number: &usize| mine.iter().any(|one| one.of == GoalOf::Clause(*number));
        assert!(road.iter().all(asked_for), "a hazard of the road is not asked for");
        hazards += road.len();
        let road_literals = road.iter().flat_map(|number| &vehicle.clauses[*number].literals);
        let asked_of = mine.iter().flat_map(|goal| &goal.any_of).chain(road_literals);
        let heard: BTreeSet<usize> = asked_of.map(|one| one.variable).collect();
        let mut variables = [component.variables.as_slice(), &component.hubs].concat();
        let of = |variable: &usize| choices(vehicle, *variable, fresh_asked.contains(variable));
        let many = |one: &usize| u128::try_from(of(one).len()).unwrap();
        let count = |some: &[usize]| some.iter().map(many).product::<u128>();
        if count(&variables) > STATES_MAX {
            // A verdict hangs on nothing but what is asked.
            variables.retain(|variable| heard.contains(variable));
        }
        let choices: Vec<_> = variables.iter().map(of).collect();
        let mut beliefs: Vec<Settings> = vehicle.variables.iter().map(|one| one.all).collect();
        let mut fresh = vec![false; beliefs.len()];
        let count = every(&choices, |at| {
            for (place, variable) in variables.iter().enumerate() {
                (beliefs[*variable], fresh[*variable]) = choices[place][at[place]];
            }
            let found = verdict(vehicle, &mine, &beliefs, |variable| fresh[variable]);
            if found.kind != VerdictKind::Clear {
                return;
            }
            clear += 1;
            let mut driving = beliefs.clone();
            (driving[wheels], driving[running]) = (moving, on);
            for number in &road {
                let literals = &vehicle.clauses[*number].literals;
                assert!(
                    !holds_somewhere(&driving, literals),
                    "Clear with {} open: {beliefs:?}",
                    vehicle.clauses[*number].id
                );
                let looked = literals
                    .iter()
                    .any(|one| fresh[one.variable] && !driving[one.variable].meets(one.settings));
                assert!(looked, "Clear with {} not looked at", vehicle.clauses[*number].id);
            }
        });
        assert!(count <= STATES_MAX, "{count} states: {}", names(vehicle, &component.variables));
        println!("{count:>8} states: {}", names(vehicle, &component.variables));
        states += count;
        product = product.saturating_mul(count);
    }
    println!("{states} states in all components; their product {product}; {clear} Clear");
    println!("{hazards} danger clauses of the road");
    assert!(clear > 0, "never Clear at all");
    (states, hazards)
}

/// What the search covers today. A change here is a change of the catalogue or of vehicle (a).
const STATES_OF_A: u128 = 828_048;
const STATES_GUARDED: u128 = 781_848;
const HAZARDS_OF_A: usize = 15;
const STATES_TO_MOVE_FROM: u128 = 179_940;

/// Whether the action is a look at something that the clause speaks of: what it shows was so before.
fn reveals(action: &Action, clause: &Clause) -> bool {
    let mut own = action.effects.iter().filter(|effect| !effect.spoilt);
    action.deed == Deed::Look
        && own.any(|effect| clause.literals.iter().any(|one| one.variable == effect.variable))
}

/// The vehicle with the rules of one component alone, and with what its moves wait for elsewhere
/// taken as given: it permits whatever the whole vehicle permits, and more.
fn alone(vehicle: &Vehicle, component: &Component) -> Vehicle {
    let mut part = vehicle.clone();
    let speaks = |one: &Literal| component.variables.contains(&one.variable);
    part.clauses.retain(|one| weighty(one) && one.literals.iter().any(speaks));
    for action in &mut part.actions {
        action.before.retain(|one| speaks(one) || component.hubs.contains(&one.variable));
    }
    part
}

#[test]
fn no_permitted_move_breaks_a_rule_that_was_kept() {
    let (states, moves) = rules_are_kept(&vehicle(A));
    println!("{states} states, {moves} permitted moves and looks");
    assert_eq!(states, STATES_TO_MOVE_FROM, "the space changed: look why");
    assert!(moves > 300_000, "only {moves}");
}

/// How many states were moved from, and how many moves and looks were permitted.
fn rules_are_kept(vehicle: &Vehicle) -> (u128, u64) {
    let (mut states, mut moves) = (0, 0_u64);
    for component in components(vehicle) {
        let vehicle = alone(vehicle, &component);
        let variables = [component.variables.as_slice(), &component.hubs].concat();
        let choices: Vec<_> =
            variables.iter().map(|variable| choices(&vehicle, *variable, false)).collect();
        let touches = |one: &&Action| one.effects.iter().any(|e| variables.contains(&e.variable));
        let actions: Vec<_> = vehicle.actions.iter().filter(touches).collect();
        let mut beliefs: Vec<Settings> = vehicle.variables.iter().map(|one| one.all).collect();
        states += every(&choices, |at| {
            for (place, variable) in variables.iter().enumerate() {
                beliefs[*variable] = choices[place][at[place]].0;
            }
            for action in actions.iter().filter(|one| is_permitted(&vehicle, &beliefs, one)) {
                moves += 1;
                let mut after = beliefs.clone();
                for effect in &action.effects {
                    after[effect.variable] = action.outcome(effect, after[effect.variable]);
                }
                for clause in &vehicle.clauses {
                    let broken = standing(&after, clause) == Standing::Broken;
                    let was = standing(&beliefs, clause) == Standing::Broken;
                    let so = !broken || was || reveals(action, clause);
                    assert!(so, "{} breaks {}", action.id, clause.id);
                }
            }
        });
    }
    (states, moves)
}

/// Enough to differ, small enough that every component is searched in full.
const DRAWN: Size = Size { least: 3, most: 8, own_seconds: true };
/// How many vehicles are drawn where the environment does not say.
const VEHICLES: usize = 50;
/// States that the oracle may settle where the environment does not ask for more.
const ORACLE_MAX: usize = 4_000;
const NUMBERS: usize = 400;
/// Starts of each component that the planner and the oracle are held against each other from.
const STARTS: usize = 3;

/// Numbers that look like chance and are the same everywhere (a linear congruence, Knuth's
/// multiplier).
fn numbers(seed: u32) -> Vec<u16> {
    let mut at = u64::from(seed).wrapping_mul(0x9e37_79b9_7f4a_7c15);
    let next = |_| {
        at = at.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        u16::try_from(at >> 48).unwrap()
    };
    (0..NUMBERS).map(next).collect()
}

/// Guarantees 1 and 2 on vehicles drawn by number, and the planner against the oracle, component by
/// component. `STOWFAST_VEHICLES` says how many are drawn, and lets the oracle settle all states.
#[test]
fn fifty_generated_vehicles_are_held_to_all_of_it() {
    let asked: Option<usize> =
        std::env::var("STOWFAST_VEHICLES").ok().and_then(|count| count.parse().ok());
    let most = if asked.is_some() { usize::try_from(STATES_MAX).unwrap() } else { ORACLE_MAX };
    let catalogue = Catalogue::built_in().unwrap();
    let (mut states, mut moves, mut answers) = (0, 0, BTreeMap::new());
    let mut numbered = 1..;
    let mut left = asked.unwrap_or(VEHICLES);
    while left > 0 {
        let seed = numbered.next().unwrap();
        let list = numbers(seed);
        let mut choices = Choices::new(&list);
        let text = packs::text(&mut choices, catalogue, DRAWN);
        let Ok(vehicle) = cases::vehicle(&text, catalogue) else { continue };
        left -= 1;
        println!("vehicle {seed}");
        states += clear_is_safe(&vehicle).0;
        moves += rules_are_kept(&vehicle).1;
        for component in components(&vehicle) {
            let part = alone(&vehicle, &component);
            for _ in 0..STARTS {
                let judged = agree(&mut choices, &part, &component, most);
                assert_ne!(judged, Judged::Different, "vehicle {seed}\n{text}");
                *answers.entry(format!("{judged:?}")).or_insert(0) += 1;
            }
        }
    }
    println!("{states} states, {moves} permitted moves and looks; with the oracle: {answers:?}");
    assert!(states > 10_000 && answers["Same"] > 50, "too few");
}

/// The planner and the oracle from one start of a component, to one goal on each of some variables.
fn agree(choices: &mut Choices, vehicle: &Vehicle, component: &Component, most: usize) -> Judged {
    let mut beliefs: Vec<_> =
        vehicle.variables.iter().map(|one| Settings::one(one.usual)).collect();
    for variable in &component.variables {
        beliefs[*variable] = cases::belief(choices, vehicle, *variable);
    }
    let target = Catalogue::built_in().unwrap().target("ready_to_drive").unwrap();
    let mut asked = goals(vehicle, target, &[]).unwrap();
    let speaks = |goal: &Goal| {
        goal.any_of.iter().all(|one| component.variables.contains(&one.variable))
            && !goal.any_of.is_empty()
    };
    asked.retain(speaks);
    let problem = Problem {
        vehicle,
        fresh: beliefs.iter().map(|_| choices.once_in(2)).collect(),
        beliefs,
        stuck: component.variables.iter().copied().filter(|_| choices.once_in(8)).collect(),
        ripens_s: BTreeMap::new(),
        zone: choices.below(vehicle.zones.len()),
        goals: asked,
    };
    let (outcome, answer) = (plan(&problem), solve(&problem.with_ways_out(), most));
    if let Outcome::Plan(plan) = &outcome {
        assert_eq!(check(&problem, plan), []);
    }
    if let Outcome::Impossible(reasons) = &outcome {
        let whole = problem.with_ways_out();
        for dropped in reasons {
            let mut smaller = whole.clone();
            let left =
                (0..whole.goals.len()).filter(|one| !reasons.contains(one) || one == dropped);
            left.for_each(|number| smaller.let_go(number));
            let found = solve(&smaller, most);
            assert!(!matches!(found, Answer::Impossible { .. }), "{dropped} is not needed");
        }
    }
    judge(&problem.with_ways_out(), &outcome, &answer)
}
