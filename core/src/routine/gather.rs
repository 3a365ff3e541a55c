//! What one deliberate gesture confirms: steps that bear on nothing of each other, gathered into
//! lists, and what the catalogue gives a gesture of its own.
//!
//! Lines of one list do not conflict (`pair/conflict.rs`), so they may be seen to in any order, and
//! whatever one of them turns out to be takes the ground from under no other: a step that hangs on
//! what a look shows is never on the list of that look. By the argument in `pair.rs` every order
//! that keeps conflicting steps in theirs is permitted and ends where the plan ends; steps change
//! places only within one stop, so walking, zone changes and elapsed time stay what they are. What
//! leads out of a danger, and what time hangs on, keeps its order; in a danger nothing is gathered, nor
//! is what time hangs on.

use super::pair::{conflict, exposed};
use super::stop::OnTime;
use super::{Plan, Problem};
use crate::catalogue::Gesture as Kept;
use crate::vehicle::{Action, Deed, Vehicle};

/// Most lines of one list (`design.md` §5).
pub const LINES_MAX: usize = 7;

/// How steps are confirmed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum GestureKind {
    /// Alone, or with its like: the catalogue says so.
    Own,
    /// As lines of one list.
    Together,
    /// Not at all: time does it.
    Wait,
}

/// Steps that one gesture confirms.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Gesture {
    /// How.
    pub kind: GestureKind,
    /// Actions of the vehicle by number, in order.
    pub steps: Vec<usize>,
}

/// The plan's steps as gestures. Put one after the other they are the plan's steps, in an order of
/// the same cost; in the plan's own order, with `as_it_stands`.
#[must_use]
pub fn gather(problem: &Problem, plan: &Plan, as_it_stands: bool) -> Vec<Gesture> {
    let vehicle = problem.vehicle;
    let exposed = exposed(problem, plan);
    let action = |step: &usize| vehicle.actions.get(*step);
    let time = OnTime::of(problem, plan);
    let on_time = |step: &usize| action(step).is_some_and(|action| time.bears(action));
    let stands = |a: &usize, b: &usize| match (action(a), action(b)) {
        (Some(a), Some(b)) => a.zone == b.zone && a.deed != Deed::Wait && b.deed != Deed::Wait,
        _ => false,
    };
    let mut gestures: Vec<Gesture> = Vec::new();
    let mut place = 0_usize;
    for stop in plan.steps.chunk_by(stands) {
        let in_danger = place < exposed;
        place = place.saturating_add(stop.len());
        let fixed = as_it_stands || in_danger || stop.iter().any(on_time);
        let mut left = stop.to_vec();
        while let Some(first) = left.first() {
            let open = gestures.last().filter(|_| !in_danger);
            let open = open.filter(|open| !open.steps.iter().any(on_time));
            let ready = if fixed { vec![*first] } else { ready(vehicle, &left) };
            let joins = |step: &&usize| {
                !on_time(step) && open.is_some_and(|open| may_join(vehicle, open, **step))
            };
            let own = |step: &&usize| kept(vehicle, **step) != Kept::Together;
            let next = ready.iter().find(joins).or_else(|| ready.iter().find(own)).unwrap_or(first);
            let (next, joins) = (*next, joins(&next));
            if let Some(at) = left.iter().position(|step| *step == next) {
                left.remove(at);
            }
            match gestures.last_mut().filter(|_| joins) {
                Some(open) => open.steps.push(next),
                None => gestures.push(Gesture { kind: kind(vehicle, next), steps: vec![next] }),
            }
        }
    }
    gestures
}

/// The steps that none before them conflicts with.
fn ready(vehicle: &Vehicle, left: &[usize]) -> Vec<usize> {
    let free = |(place, step): &(usize, &usize)| {
        !left.iter().take(*place).any(|earlier| in_conflict(vehicle, *earlier, **step))
    };
    left.iter().enumerate().filter(free).map(|(_, step)| *step).collect()
}

/// Whether a step may be confirmed with the last gesture.
fn may_join(vehicle: &Vehicle, open: &Gesture, step: usize) -> bool {
    let alike = |member: &usize| match kept(vehicle, step) {
        Kept::Own => false,
        Kept::Group => variable(vehicle, *member) == variable(vehicle, step),
        Kept::Together => kept(vehicle, *member) == Kept::Together,
    };
    let near = |member: &usize| {
        let action = |step: usize| vehicle.actions.get(step).map(|action| action.zone);
        let walk = action(*member).zip(action(step)).map(|(a, b)| vehicle.walks.between(b, a));
        walk.is_some_and(|walk_s| walk_s <= vehicle.list_walk_s)
    };
    kind(vehicle, step) == open.kind
        && open.steps.len() < LINES_MAX
        && open.steps.iter().all(|one| alike(one) && near(one) && !in_conflict(vehicle, *one, step))
}

fn in_conflict(vehicle: &Vehicle, one: usize, other: usize) -> bool {
    let both = vehicle.actions.get(one).zip(vehicle.actions.get(other));
    both.is_none_or(|(one, other)| conflict(vehicle, one, other))
}

fn kind(vehicle: &Vehicle, step: usize) -> GestureKind {
    match (vehicle.actions.get(step).map(|action| action.deed), kept(vehicle, step)) {
        (Some(Deed::Wait), _) => GestureKind::Wait,
        (_, Kept::Own | Kept::Group) => GestureKind::Own,
        (_, Kept::Together) => GestureKind::Together,
    }
}

/// What the catalogue says of what a step changes or shows.
fn kept(vehicle: &Vehicle, step: usize) -> Kept {
    let action: Option<&Action> = vehicle.actions.get(step);
    let effects = action.into_iter().flat_map(|action| &action.effects);
    let own = effects.filter(|effect| !effect.spoilt);
    let said = own.filter_map(|effect| vehicle.variables.get(effect.variable));
    said.map(|variable| variable.gesture).max().unwrap_or_default()
}

/// The kind and variable that a step is about.
fn variable(vehicle: &Vehicle, step: usize) -> Option<(&str, &str)> {
    let action = vehicle.actions.get(step)?;
    let known = vehicle.variables.get(action.effects.first()?.variable)?;
    Some((vehicle.fittings.get(known.fitting)?.kind.as_str(), known.name.as_str()))
}
