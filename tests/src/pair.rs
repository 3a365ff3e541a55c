//! The checker of schedules for two. Shares no code with the planner.
#![allow(
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    reason = "a wrong number must fail loudly"
)]

use std::collections::BTreeSet;

use stowfast_core::routine::{Plan, Problem, Schedule, Turn};
use stowfast_core::vehicle::Deed;

use crate::conflict::in_order;
use crate::timed;

/// Elapsed time, walking of both, zone changes.
pub type Price = (u32, u32, u32);

/// The fitting whose chain a step belongs to.
#[must_use]
pub fn chain_of(problem: &Problem, plan: &Plan, place: usize) -> Option<usize> {
    let fitting = problem.vehicle.actions[plan.steps[place]].fitting;
    problem.vehicle.fittings[fitting].one_person.then_some(fitting)
}

/// Whether each chain is one person's and nothing of that person's comes between.
fn chains_hold(problem: &Problem, plan: &Plan, turns: &[(usize, usize)]) -> bool {
    let chains: BTreeSet<_> = (0..plan.steps.len()).map(|p| chain_of(problem, plan, p)).collect();
    chains.into_iter().flatten().all(|chain| {
        let is = |place: usize| chain_of(problem, plan, place) == Some(chain);
        let owner = turns.iter().find(|turn| is(turn.0)).map(|turn| turn.1);
        let own: Vec<bool> =
            turns.iter().filter(|turn| Some(turn.1) == owner).map(|turn| is(turn.0)).collect();
        let count = own.iter().filter(|one| **one).count();
        let first = own.iter().position(|one| *one).unwrap_or(0);
        own[first..].iter().take(count).all(|one| *one)
            && turns.iter().filter(|turn| is(turn.0)).count() == count
    })
}

/// What is wrong with the waits of a schedule: nothing of that person's falls into one, and the walk
/// to what comes next is left.
fn pauses(problem: &Problem, schedule: &Schedule) -> Vec<String> {
    let wrong = schedule.pauses.iter().filter(|pause| {
        let mut own = schedule.turns.iter().filter(|turn| turn.person == pause.person);
        let fits = own.all(|turn| {
            let comes = turn.end_s > pause.start_s;
            !comes || turn.start_s - turn.walk_s >= pause.end_s && pause.next.is_some()
        });
        let waits = problem.vehicle.actions[pause.action].deed == Deed::Wait;
        !fits || !waits || pause.start_s >= pause.end_s || pause.end_s > schedule.elapsed_s
    });
    wrong.map(|pause| format!("{pause:?}: no such wait")).collect()
}

/// Everything that is wrong with a schedule; empty for a good one.
#[must_use]
pub fn faults(problem: &Problem, plan: &Plan, schedule: &Schedule) -> Vec<String> {
    let mut found = Vec::new();
    let turns = &schedule.turns;
    let mut must = |is: bool, what: String| found.extend((!is).then_some(what));
    let mut places: Vec<_> = turns.iter().map(|turn| turn.place).collect();
    must(turns.is_sorted_by_key(|turn| (turn.start_s, turn.place)), "not by start".to_owned());
    let as_planned = places.is_sorted() && turns.iter().all(|turn| turn.person == 0);
    places.sort_unstable();
    must(places == timed::work(problem, plan), "not once each".to_owned());
    let mut price = (0, 0, 0);
    for person in 0..2 {
        let (mut zone, mut free_s) = (problem.zone, 0);
        for turn in turns.iter().filter(|turn| turn.person == person) {
            let action = &problem.vehicle.actions[plan.steps[turn.place]];
            let to = action.zone;
            let walk_s = problem.vehicle.walks.between(zone, to);
            let lasts_s = action.seconds;
            must(turn.start_s >= free_s + walk_s, format!("{turn:?}: not there yet"));
            must(turn.end_s == turn.start_s + lasts_s, format!("{turn:?}: too short or long"));
            must(turn.walk_s == walk_s, format!("{turn:?}: another walk"));
            price = (0, price.1 + walk_s, price.2 + u32::from(zone != to));
            (zone, free_s) = (to, turn.end_s);
        }
    }
    // What must be old in the end may be old only after the last step.
    let made: Vec<_> = turns.iter().map(|turn| (turn.place, turn.end_s)).collect();
    price.0 =
        if as_planned { schedule.elapsed_s } else { timed::met(problem, plan, &made).unwrap_or(0) };
    let told = (schedule.elapsed_s, schedule.walk_s, schedule.zone_changes);
    must(told == price, format!("told {told:?}, is {price:?}"));
    let at = |place: usize| turns.iter().find(|turn| turn.place == place);
    for wrong in pauses(problem, schedule) {
        must(false, wrong);
    }
    for (a, b) in in_order(problem, plan) {
        let (Some(a), Some(b)) = (at(a), at(b)) else { continue };
        must(a.end_s <= b.start_s, format!("{a:?} and {b:?} overlap"));
        // The word for `b`, or an earlier one, is for `a` or something later of the same person.
        let said = turns.iter().filter(|turn| turn.person == b.person && turn.start_s <= b.start_s);
        let mut said = said.filter_map(|turn: &Turn| at(turn.word?));
        let heard = said.any(|word| word.person == a.person && word.start_s >= a.start_s);
        must(a.person == b.person || heard, format!("no word of {a:?} for {b:?}"));
    }
    let order: Vec<_> = turns.iter().map(|turn| (turn.place, turn.person)).collect();
    must(as_planned || chains_hold(problem, plan, &order), "a chain is broken".to_owned());
    for wrong in timed::check(problem, plan, turns, schedule.elapsed_s) {
        must(false, wrong);
    }
    found
}
