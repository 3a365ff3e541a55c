//! Which steps of a plan two people must keep in order. Shares no code with the planner.
#![allow(
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    reason = "a wrong number must fail loudly"
)]

use std::collections::BTreeSet;

use stowfast_core::catalogue::Severity;
use stowfast_core::interlock::GoalOf;
use stowfast_core::routine::{Plan, Problem};
use stowfast_core::vehicle::{Action, Clause, Deed, Settings};

fn changed(action: &Action) -> BTreeSet<usize> {
    action.effects.iter().map(|effect| effect.variable).collect()
}

/// What an action really alters, rather than shows.
fn altered(action: &Action) -> BTreeSet<usize> {
    let alters = action.effects.iter().filter(|one| one.spoilt || action.deed == Deed::Move);
    alters.map(|effect| effect.variable).collect()
}

/// Whether two steps must neither overlap nor change places.
#[must_use]
pub fn conflict(problem: &Problem, one: &Action, two: &Action) -> bool {
    let sets = |action: &Action, variable: usize| {
        action.effects.iter().any(|effect| effect.variable == variable && !effect.spoilt)
    };
    let reads = |action: &Action| -> BTreeSet<usize> {
        action.before.iter().map(|literal| literal.variable).collect()
    };
    let (a, b) = (changed(one), changed(two));
    let mut common = a.intersection(&b);
    let across = |from: &Action, to: &Action, clause: &Clause| {
        let of = |set: BTreeSet<usize>| -> Vec<usize> {
            let named = clause.literals.iter().map(|literal| literal.variable);
            named.filter(|variable| set.contains(variable)).collect()
        };
        of(altered(from)).iter().any(|v| of(changed(to)).iter().any(|w| v != w))
    };
    common.any(|variable| sets(one, *variable) || sets(two, *variable))
        || !a.is_disjoint(&reads(two))
        || !b.is_disjoint(&reads(one))
        || problem.vehicle.clauses.iter().any(|c| across(one, two, c) || across(two, one, c))
}

/// What is believed after the first `count` steps, were no time to pass.
#[must_use]
pub fn after(problem: &Problem, plan: &Plan, count: usize) -> Vec<Settings> {
    let mut beliefs = problem.beliefs.clone();
    for action in plan.steps[..count].iter().map(|step| &problem.vehicle.actions[*step]) {
        for effect in &action.effects {
            beliefs[effect.variable] = action.outcome(effect, beliefs[effect.variable]);
        }
    }
    beliefs
}

/// Pairs of places of the plan of which the first must have ended before the second starts: those in
/// conflict, and whatever comes after a step that is made while some step has still to lead out of
/// what is broken.
#[must_use]
pub fn in_order(problem: &Problem, plan: &Plan) -> Vec<(usize, usize)> {
    let action = |place: usize| &problem.vehicle.actions[plan.steps[place]];
    let goals = problem.with_ways_out().goals;
    let kept = |number| {
        let of = GoalOf::Clause(number);
        !goals.iter().any(|goal| goal.of == of && goal.is_let_go(problem.vehicle))
    };
    let clauses = problem.vehicle.clauses.iter().enumerate();
    let grave = clauses.filter(|(n, one)| one.severity != Severity::Nuisance && kept(*n));
    let broken = |beliefs: &[Settings], clause: &Clause| {
        clause.literals.iter().all(|one| beliefs[one.variable].is_within(one.settings))
    };
    let at_first = grave.map(|(_, one)| one).filter(|one| broken(&problem.beliefs, one));
    let at_first: Vec<_> = at_first.collect();
    let early = |place: usize| {
        let mut beliefs = (0..=place).map(|count| after(problem, plan, count));
        beliefs.all(|beliefs| at_first.iter().any(|one| broken(&beliefs, one)))
    };
    // Once only time can lead out of it, what else is done makes it no longer.
    let leads = |place: usize| {
        let mut told = at_first.iter().flat_map(|one| &one.literals);
        let changed = changed(action(place));
        action(place).deed != Deed::Wait && told.any(|one| changed.contains(&one.variable))
    };
    let last = (0..plan.steps.len()).rfind(|place| early(*place) && leads(*place));
    let early = |place: usize| last.is_some_and(|last| place <= last);
    let pairs = (0..plan.steps.len()).flat_map(|b| (0..b).map(move |a| (a, b)));
    pairs.filter(|(a, b)| early(*a) || conflict(problem, action(*a), action(*b))).collect()
}
