//! Whether a target is reached: all of what is in the way at once, in catalogue order.

use super::goal::ways_out;
use super::{Goal, GoalOf, may_hold, must_hold};
use crate::vehicle::{Settings, Vehicle};

/// The answer to "is it so?".
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum VerdictKind {
    /// Everything that must hold is known to hold, and fresh where that is asked.
    Clear,
    /// Something may not be so, or was not looked at for this departure.
    Unknown,
    /// Something is known not to be so.
    Blocked,
}

/// What is wrong with a goal.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Fault {
    /// It is known not to be so.
    Broken,
    /// It may not be so.
    NotKnown,
    /// It is believed to be so but was not done or looked at for this departure.
    NotFresh,
}

/// A goal that is not met, and why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Item {
    /// The goal.
    pub goal: Goal,
    /// What is wrong with it.
    pub fault: Fault,
}

/// The verdict with all its items.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Verdict {
    /// The answer.
    pub kind: VerdictKind,
    /// What is in the way: what is known to be wrong first, each in catalogue order.
    pub items: Vec<Item>,
    /// How many things were asked.
    pub asked: usize,
}

/// What is wrong with a goal, if anything. `fresh` tells whether a variable was done or looked at
/// for this departure.
pub(crate) fn fault_of(
    goal: &Goal,
    beliefs: &[Settings],
    fresh: impl Fn(usize) -> bool,
) -> Option<Fault> {
    let mut met = goal.any_of.iter().filter(|literal| must_hold(beliefs, literal)).peekable();
    if met.peek().is_some() {
        let enough = !goal.fresh || met.any(|literal| fresh(literal.variable));
        return (!enough).then_some(Fault::NotFresh);
    }
    let possible = goal.any_of.iter().any(|literal| may_hold(beliefs, literal));
    Some(if possible { Fault::NotKnown } else { Fault::Broken })
}

/// The verdict on goals for what is believed. A danger or damage clause that is broken now is
/// always in the way, whatever the goals ask.
pub fn verdict(
    vehicle: &Vehicle,
    goals: &[Goal],
    beliefs: &[Settings],
    fresh: impl Fn(usize) -> bool,
) -> Verdict {
    let mut items = Vec::new();
    let broken_now = ways_out(vehicle, beliefs);
    let asked = |of: &GoalOf| goals.iter().any(|goal| goal.of == *of);
    let extra: Vec<_> = broken_now.into_iter().filter(|goal| !asked(&goal.of)).collect();
    for goal in extra.iter().chain(goals) {
        if let Some(fault) = fault_of(goal, beliefs, &fresh) {
            items.push(Item { goal: goal.clone(), fault });
        }
    }
    items.sort_by_key(|item| item.fault);
    let kind = match items.first().map(|item| item.fault) {
        None => VerdictKind::Clear,
        Some(Fault::Broken) => VerdictKind::Blocked,
        Some(Fault::NotKnown | Fault::NotFresh) => VerdictKind::Unknown,
    };
    Verdict { kind, items, asked: goals.len().saturating_add(extra.len()) }
}
