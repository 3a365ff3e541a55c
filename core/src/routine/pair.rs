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
//! Time enters as ages that must be old. Replayed as if no time passed, some steps of the plan are
//! refused, and some goals unmet, but for an age that is young (`delay.rs`): each *needs* it old. By
//! the argument above the same steps are refused for the same reasons in every order that keeps
//! conflicts, and for no other. An age counts from the end of the step that began it, which is the
//! same step in every such order: what moves a thing makes its ages young, and so conflicts with
//! whatever asks for them; what only finds or throws it there comes before the step in need, and what
//! throws it elsewhere later stays behind it. So an order is permitted if in it each need is met by
//! the time that the step starts, and ends where the plan ends if in the end each goal's is: least
//! delays between the end of one step and the start of another, or the end. They come from actions
//! and clauses alone, since what was old in the plan may only have been so because one person is
//! slow. A clause with two ages is off when either is old, so the sooner counts. What an age kept
//! from being a nuisance in the plan is kept so too. The waits themselves are nobody's work, and
//! whoever comes next may walk meanwhile.
//!
//! What leads out of a danger keeps its order and comes before everything else: exposure counts more
//! than elapsed time. Once only time can lead out, work meanwhile makes it no longer.

mod conflict;
mod delay;
mod search;
mod side;
#[cfg(test)]
mod tests;

use super::{Plan, Problem, Proof};
use crate::vehicle::Deed;
pub(super) use conflict::{conflict, exposed};
use delay::{Age, Need};
use search::{Price, Task, best};
use side::Side;

/// A plan, shared out between two people who start in the same zone.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Schedule {
    /// Every step of the plan but its waits, by when it starts, then by its place in the plan.
    pub turns: Vec<Turn>,
    /// Where somebody has nothing to do but to let time pass.
    pub pauses: Vec<Pause>,
    /// When the last step ends, and all is old that must be. Unit: s.
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

/// Time that passes until something is old enough, while one person has nothing to do.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Pause {
    /// Who waits: 0 or 1.
    pub person: usize,
    /// The action of the vehicle, by number, that waits for it.
    pub action: usize,
    /// From when; the walk to the next step comes after it. Unit: s.
    pub start_s: u32,
    /// Until when. Unit: s.
    pub end_s: u32,
    /// The step of that person that comes next, by its place in the plan; none in the end.
    pub next: Option<usize>,
}

/// Shares out a plan so that it takes the least time, then the least walking of both, then the
/// fewest zone changes. A plan that is no quicker shared, or whose chains cross so that two people
/// cannot do it, stays with the first person as it is. Who ends what must not end alone is there from
/// when it may end; that counts before all of it.
#[must_use]
pub fn share(problem: &Problem, plan: &Plan) -> Schedule {
    let (alone, alone_s) = alone(problem, plan);
    let Some(needs) = delay::needs(problem, plan, &alone_s) else { return alone };
    let task = Task::of(problem, plan, needs);
    let (found, proof) = best(&task, Price::of(plan));
    found.map_or(Schedule { proof, ..alone }, |side| schedule(problem, &task, side, proof))
}

/// The plan as one person carries it out, and when each of its steps ends.
fn alone(problem: &Problem, plan: &Plan) -> (Schedule, Vec<u32>) {
    // What is left of waits on arriving at the next step comes on top of the walk there.
    let (mut zone, mut now_s, mut waited_s) = (problem.zone, 0_u32, 0_u32);
    let (mut turns, mut pauses, mut alone_s) = (Vec::new(), Vec::new(), Vec::new());
    for (place, step) in plan.steps.iter().enumerate() {
        let Some(action) = problem.vehicle.actions.get(*step) else { continue };
        let to = plan.zone(problem.vehicle, place).unwrap_or(zone);
        let walk_s = problem.vehicle.walks.between(zone, to);
        let there_s = now_s.saturating_add(walk_s);
        if action.deed == Deed::Wait {
            let start_s = now_s.saturating_add(waited_s);
            waited_s = waited_s.saturating_add(plan.wait_s.get(&place).copied().unwrap_or(0));
            let end_s = now_s.saturating_add(waited_s);
            pauses.push(Pause { person: 0, action: *step, start_s, end_s, next: None });
            alone_s.push(there_s.saturating_add(waited_s));
            continue;
        }
        let start_s = there_s.saturating_add(waited_s);
        let end_s = start_s.saturating_add(action.seconds);
        let of_next = pauses.iter_mut().rev().take_while(|pause| pause.next.is_none());
        of_next.for_each(|pause| pause.next = Some(place));
        turns.push(Turn { place, person: 0, start_s, end_s, walk_s, word: None });
        alone_s.push(end_s);
        (zone, now_s, waited_s) = (to, end_s, 0);
    }
    pauses.retain(|pause| pause.end_s > pause.start_s);
    let schedule = Schedule {
        turns,
        pauses,
        elapsed_s: plan.cost.elapsed_s,
        walk_s: plan.cost.walk_s,
        zone_changes: plan.cost.zone_changes,
        proof: Proof::Exact,
    };
    (schedule, alone_s)
}

/// The schedule that a search found, with the words and the waits of each.
fn schedule(problem: &Problem, task: &Task, side: Side, proof: Proof) -> Schedule {
    let pauses = pauses(problem, task, &side);
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
        pauses,
        elapsed_s: price.elapsed_s,
        walk_s: price.walk_s,
        zone_changes: price.zone_changes,
        proof,
    }
}

/// Where a person would come to a step before what it needs is old; and, in the end, where whoever
/// ends last has still to wait.
fn pauses(problem: &Problem, task: &Task, side: &Side) -> Vec<Pause> {
    let mut free_s = [0_u32; 2];
    let mut found = Vec::new();
    for turn in &side.turns {
        let (Some(job), Some(free_s)) = (task.jobs.get(turn.place), free_s.get_mut(turn.person))
        else {
            continue;
        };
        let told = job.before.iter().filter_map(|place| side.ends_s.get(*place));
        let from_s = told.copied().max().unwrap_or(0).max(*free_s);
        let pause = Pause {
            person: turn.person,
            action: 0,
            start_s: from_s,
            end_s: 0,
            next: Some(turn.place),
        };
        found.extend(last(&job.needs, side).and_then(|(old_s, age)| {
            let end_s = old_s.saturating_sub(turn.walk_s);
            let action = wait_of(problem, age)?;
            (end_s > from_s).then_some(Pause { action, end_s, ..pause })
        }));
        *free_s = turn.end_s;
    }
    let ended_s = free_s.into_iter().max().unwrap_or(0);
    let person = usize::from(free_s.first() != Some(&ended_s));
    found.extend(last(&task.end, side).and_then(|(end_s, age)| {
        let action = wait_of(problem, age)?;
        (end_s > ended_s).then_some(Pause { person, action, start_s: ended_s, end_s, next: None })
    }));
    found
}

/// The last of some needs to be met: when, and by which age.
fn last<'a>(needs: &'a [Need], side: &Side) -> Option<(u32, &'a Age)> {
    let met = needs.iter().filter_map(|need| delay::soonest(need, &side.ends_s));
    met.max_by_key(|(old_s, _)| *old_s)
}

/// The action that waits for an age.
fn wait_of(problem: &Problem, age: &Age) -> Option<usize> {
    problem.vehicle.actions.iter().position(|action| {
        action.deed == Deed::Wait && action.effects.iter().any(|one| one.variable == age.variable)
    })
}
