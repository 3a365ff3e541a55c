//! Laws of the order that a routine keeps to: what is kept is a plan like any other.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    clippy::print_stdout,
    reason = "a test may fail loudly"
)]

use std::cell::Cell;

use stowfast_core::routine::{KEEP_S, KEEP_ZONE_CHANGES, Outcome, Problem, keep, plan};
use stowfast_core::vehicle::Settings;
use stowfast_tests::cases::{Case, Kinds};
use stowfast_tests::checker::{check, end_of};
use stowfast_tests::draw::{Effort, law};
use stowfast_tests::packs::Size;

const SMALL: Size = Size { least: 1, most: 5, own_seconds: true };
const LARGE: Size = Size { least: 8, most: 20, own_seconds: true };

/// The same question once some steps were taken and one thing was found otherwise.
fn later<'a>(problem: &Problem<'a>, done: &[usize], odd: usize) -> Problem<'a> {
    let (mut beliefs, mut fresh, zone) = end_of(problem, done);
    let aged = |one: &usize| {
        problem
            .vehicle
            .variables
            .iter()
            .any(|age| age.age_of.is_some_and(|age| age.variable == *one))
    };
    let known = problem.vehicle.variables.iter().enumerate();
    let free = known.filter(|(at, one)| one.age_of.is_none() && !aged(at) && !one.given);
    let free: Vec<_> = free.map(|(at, one)| (at, one.all)).collect();
    if odd > 0 && !free.is_empty() {
        let (variable, all) = free[odd % free.len()];
        let places: Vec<_> = all.places().collect();
        beliefs[variable] = Settings::one(places[odd / free.len() % places.len()]);
        fresh[variable] = false;
    }
    Problem { beliefs, fresh, zone, ..problem.clone() }
}

fn judge(case: &Case, kept: &Cell<u32>) -> Result<(), String> {
    let problem = case.problem();
    let Outcome::Plan(old) = plan(&problem) else { return Ok(()) };
    for (taken, odd) in [(0, 1), (1, 0), (1, 2), (2, 5), (3, 11)] {
        let done = &old.steps[..taken.min(old.steps.len())];
        let problem = later(&problem, done, odd);
        let Outcome::Plan(new) = plan(&problem) else { continue };
        let Some(own) = keep(&problem, &old.steps, &new) else { continue };
        let shown = format!("{:?}\n{:?}", case.names(&own.steps), case.names(&new.steps));
        let found = check(&problem, &own);
        let gain_s = own.cost.elapsed_s.saturating_sub(new.cost.elapsed_s);
        let saved = own.cost.zone_changes.saturating_sub(new.cost.zone_changes);
        let graver = own.cost.danger_s > new.cost.danger_s
            || own.cost.nuisances > new.cost.nuisances
            || own.cost.disturbed > new.cost.disturbed;
        if !found.is_empty() || gain_s > KEEP_S || saved > KEEP_ZONE_CHANGES || graver {
            return Err(format!("{found:?}, {gain_s} s, {saved} zones\n{shown}"));
        }
        kept.set(kept.get() + 1);
    }
    Ok(())
}

fn holds(kinds: Kinds, size: Size, cases: u32) -> u32 {
    let kept = Cell::new(0);
    let effort = Effort { cases, numbers_max: 400 };
    let held = law(effort, |list| Case::drawn(list, kinds, size).ok(), |case| judge(case, &kept));
    held.unwrap_or_else(|why| panic!("{why}"));
    println!("orders kept where the new one is another: {}", kept.get());
    kept.get()
}

#[test]
fn an_order_that_is_kept_is_a_plan_like_any_other() {
    assert!(holds(Kinds::BuiltIn, LARGE, 800) >= 10);
}

#[test]
fn orders_of_made_up_kinds_are_kept_only_where_they_lead_there() {
    assert!(holds(Kinds::MadeUp, SMALL, 4_000) >= 10);
}
