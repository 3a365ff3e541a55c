//! One plan for two people: who does which step, and for which word of the other each waits.
//!
//! Two steps *conflict* where one changes what the other changes or asks for, or where they meet in
//! a clause (`conflict.rs`). Conflicting steps keep the order of the plan, and the later begins only
//! once the earlier has ended and that was said. Whether a step may be made depends on nothing but
//! what it asks for and what stands in a clause with what it brings about; what it leaves behind
//! depends on nothing but what it changes. So of two neighbours that do not conflict either may
//! come first: both stay permitted, and what is believed after both is the same. Every order that
//! keeps conflicting steps in theirs is reached from the plan by such swaps of neighbours (of two
//! steps that stand the wrong way round some two are next to each other), hence permitted, and ends
//! where the plan ends. And as the one is no part of what the other hangs on, both may be under way
//! at once.
//!
//! Time has no part in that argument, so a plan that lets time pass to be permitted stays with one
//! person. What leads out of a danger keeps its order and comes before everything else: exposure
//! counts more than elapsed time.

mod conflict;
mod search;
mod side;
#[cfg(test)]
mod tests;

use super::{Plan, Problem, Proof};
use crate::interlock::{is_permitted, must_hold};
use crate::vehicle::Deed;
pub(super) use conflict::{conflict, exposed};
use search::{Price, Task, best};
use side::Side;

/// A plan, shared out between two people who start in the same zone.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Schedule {
    /// Every step of the plan, by when it starts, then by its place in the plan.
    pub turns: Vec<Turn>,
    /// When the last step ends. Unit: s.
    pub elapsed_s: u32,
    /// Walking of both. Unit: s.
    pub walk_s: u32,
    /// Times that either enters another zone.
    pub zone_changes: u32,
    /// How far it is from the best way to share this plan: elapsed time, then walking, then zone
    /// changes. A gap of 0 s: nothing is quicker, but the same may be had with less walking.
    pub proof: Proof,
}

/// One step, done by one person.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Turn {
    /// Its place in the plan.
    pub place: usize,
    /// Who does it: 0 or 1.
    pub person: usize,
    /// When it starts, from the start of the schedule; the walk to it is behind. Unit: s.
    pub start_s: u32,
    /// When it ends. Unit: s.
    pub end_s: u32,
    /// The walk to it. Unit: s.
    pub walk_s: u32,
    /// The step of the other, by its place in the plan, whose end must be said before this starts.
    /// What was said before that is not asked for again.
    pub word: Option<usize>,
}

/// Shares out a plan so that it takes the least time, then the least walking of both, then the
/// fewest zone changes. A plan that is no quicker shared, that waits, or whose chains cross so that
/// two people cannot do it, stays with the first person as it is.
#[must_use]
pub fn share(problem: &Problem, plan: &Plan) -> Schedule {
    let alone = alone(problem, plan);
    if !is_timeless(problem, plan) {
        return alone;
    }
    let task = Task::of(problem, plan);
    let (found, proof) = best(&task, Price::of(&alone));
    found.map_or(Schedule { proof, ..alone }, |side| schedule(&task, side, proof))
}

/// Whether every step is permitted, and every goal is met, though no time passes. Time only helps:
/// an age makes a rule off, or a condition hold, by growing old.
fn is_timeless(problem: &Problem, plan: &Plan) -> bool {
    let mut beliefs = problem.beliefs.clone();
    for step in &plan.steps {
        let Some(action) = problem.vehicle.actions.get(*step) else { return false };
        if action.deed == Deed::Wait || !is_permitted(problem.vehicle, &beliefs, action) {
            return false;
        }
        action.apply(&mut beliefs);
    }
    let goals = problem.with_ways_out().goals;
    goals.iter().all(|goal| goal.any_of.iter().any(|literal| must_hold(&beliefs, literal)))
}

/// The plan as one person carries it out.
fn alone(problem: &Problem, plan: &Plan) -> Schedule {
    let (mut zone, mut now_s) = (problem.zone, 0_u32);
    let mut turns = Vec::new();
    for (place, step) in plan.steps.iter().enumerate() {
        let Some(action) = problem.vehicle.actions.get(*step) else { continue };
        let to = plan.zone(problem.vehicle, place).unwrap_or(zone);
        let walk_s = problem.vehicle.walks.between(zone, to);
        let seconds = plan.wait_s.get(&place).copied().unwrap_or(action.seconds);
        let start_s = now_s.saturating_add(walk_s);
        let end_s = start_s.saturating_add(seconds);
        turns.push(Turn { place, person: 0, start_s, end_s, walk_s, word: None });
        (zone, now_s) = (to, end_s);
    }
    Schedule {
        turns,
        elapsed_s: plan.cost.elapsed_s,
        walk_s: plan.cost.walk_s,
        zone_changes: plan.cost.zone_changes,
        proof: Proof::Exact,
    }
}

/// The schedule that a search found, with the words that each waits for.
fn schedule(task: &Task, side: Side, proof: Proof) -> Schedule {
    let Side { price, mut turns, .. } = side;
    let order = turns.clone();
    // For each person, how many turns of the other are known to have ended.
    let mut heard = [0_usize; 2];
    for turn in &mut turns {
        let others = order.iter().filter(|other| other.person != turn.person);
        let needed = others.enumerate().filter(|(_, other)| task.waits(turn.place, other.place));
        if let (Some((at, other)), Some(heard)) = (needed.last(), heard.get_mut(turn.person))
            && at >= *heard
        {
            turn.word = Some(other.place);
            *heard = at.saturating_add(1);
        }
    }
    turns.sort_by_key(|turn| (turn.start_s, turn.place));
    Schedule {
        turns,
        elapsed_s: price.elapsed_s,
        walk_s: price.walk_s,
        zone_changes: price.zone_changes,
        proof,
    }
}
