//! The checker of schedules for two. Shares no code with the planner.
#![allow(
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    reason = "a wrong number must fail loudly"
)]

use std::collections::BTreeSet;

use stowfast_core::routine::{Cost, Plan, Problem, Schedule, Turn};
use stowfast_core::vehicle::Deed;

use crate::checker::{Violation, check};
use crate::conflict::in_order;

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

/// Everything that is wrong with a schedule; empty for a good one.
#[must_use]
pub fn faults(problem: &Problem, plan: &Plan, schedule: &Schedule) -> Vec<String> {
    let mut found = Vec::new();
    let turns = &schedule.turns;
    let mut must = |is: bool, what: String| {
        if !is {
            found.push(what);
        }
    };
    let mut places: Vec<_> = turns.iter().map(|turn| turn.place).collect();
    let steps: Vec<_> = places.iter().map(|place| plan.steps[*place]).collect();
    must(turns.is_sorted_by_key(|turn| (turn.start_s, turn.place)), "not by start".to_owned());
    let as_planned = places.is_sorted() && turns.iter().all(|turn| turn.person == 0);
    places.sort_unstable();
    must(places == (0..plan.steps.len()).collect::<Vec<_>>(), "not once each".to_owned());
    let mut price = (0, 0, 0);
    for person in 0..2 {
        let (mut zone, mut free_s) = (problem.zone, 0);
        for turn in turns.iter().filter(|turn| turn.person == person) {
            let action = &problem.vehicle.actions[plan.steps[turn.place]];
            let waits = action.deed == Deed::Wait;
            // One waits where the next step is.
            let after = plan.steps[turn.place..].iter().map(|one| &problem.vehicle.actions[*one]);
            let next = after.filter(|one| one.deed != Deed::Wait).map(|one| one.zone).next();
            let to = if waits { next.unwrap_or(zone) } else { action.zone };
            let walk_s = problem.vehicle.walks.between(zone, to);
            let lasts_s = plan.wait_s.get(&turn.place).copied().unwrap_or(action.seconds);
            must(turn.start_s >= free_s + walk_s, format!("{turn:?}: not there yet"));
            must(turn.end_s == turn.start_s + lasts_s, format!("{turn:?}: too short or long"));
            must(turn.walk_s == walk_s, format!("{turn:?}: another walk"));
            price = (price.0.max(turn.end_s), price.1 + walk_s, price.2 + u32::from(zone != to));
            (zone, free_s) = (to, turn.end_s);
        }
    }
    let told = (schedule.elapsed_s, schedule.walk_s, schedule.zone_changes);
    must(told == price, format!("told {told:?}, is {price:?}"));
    let at = |place: usize| turns.iter().find(|turn| turn.place == place);
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
    for wrong in check(problem, &Plan { steps, ..plan.clone() }) {
        let is_graver = if let Violation::Cost(cost) = &wrong {
            let grave =
                |cost: &Cost| (cost.danger_s, cost.damage_s, cost.nuisances, cost.disturbed);
            grave(cost) > grave(&plan.cost)
        } else {
            true
        };
        must(!is_graver, format!("{wrong:?}"));
    }
    found
}
