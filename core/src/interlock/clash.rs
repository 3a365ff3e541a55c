//! Why goals cannot hold together, whatever is done: the rules that forbid it and the facts that
//! these hang on.

use super::Goal;
use crate::catalogue::Severity;
use crate::vehicle::{Clause, Literal, Settings, Vehicle};

/// Most ways to choose one literal of each goal that are looked at.
const WAYS_MAX: usize = 64;

/// What keeps some goals from holding together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Clash {
    /// Those goals.
    pub goals: Vec<Goal>,
    /// Danger and damage clauses of the vehicle, by number: without any one of them the goals could
    /// hold together, as far as single rules tell.
    pub clauses: Vec<usize>,
    /// What stays as it is and is needed for that.
    pub fixed: Vec<Literal>,
}

/// The rules by which no state satisfies `goals`, where what is `fixed` stays as it is: for each way
/// to choose a literal of every goal, what the rules leave of each variable is followed to where one
/// of them is broken (unit propagation, as in Davis, Logemann and Loveland 1962); a deletion filter
/// then leaves out what is not needed. `None` where that shows nothing: what stands in the way may
/// still be the moves, or several rules that leave more than one choice.
#[must_use]
pub fn clash(vehicle: &Vehicle, goals: &[Goal], fixed: &[Literal]) -> Option<Clash> {
    let ways = ways(goals)?;
    let mut clash = Clash {
        goals: goals.to_vec(),
        clauses: (0..vehicle.clauses.len()).collect(),
        fixed: fixed.to_vec(),
    };
    let forbids = |clash: &Clash| ways.iter().all(|way| is_refuted(vehicle, way, clash));
    if !forbids(&clash) {
        return None;
    }
    for number in (0..vehicle.clauses.len()).rev() {
        drop_one(&mut clash, &forbids, |one| one.clauses.retain(|known| *known != number));
    }
    for literal in fixed {
        drop_one(&mut clash, &forbids, |one| one.fixed.retain(|known| known != literal));
    }
    (!clash.clauses.is_empty()).then_some(clash)
}

/// Leaves something out where the goals clash all the same.
fn drop_one(clash: &mut Clash, forbids: &impl Fn(&Clash) -> bool, leave_out: impl Fn(&mut Clash)) {
    let mut less = clash.clone();
    leave_out(&mut less);
    if forbids(&less) {
        *clash = less;
    }
}

/// Every way to choose one literal of each goal; `None` where there are too many.
fn ways(goals: &[Goal]) -> Option<Vec<Vec<Literal>>> {
    let mut ways = vec![Vec::new()];
    for goal in goals {
        let longer = |way: &Vec<Literal>| {
            let way = way.clone();
            goal.any_of.iter().map(move |one| [way.as_slice(), &[*one]].concat())
        };
        ways = ways.iter().flat_map(longer).take(WAYS_MAX.saturating_add(1)).collect();
    }
    (ways.len() <= WAYS_MAX).then_some(ways)
}

/// Whether no state has all of `way` without breaking a rule.
fn is_refuted(vehicle: &Vehicle, way: &[Literal], clash: &Clash) -> bool {
    let mut left: Vec<Settings> = vehicle.variables.iter().map(|one| one.all).collect();
    for literal in way.iter().chain(&clash.fixed) {
        if let Some(settings) = left.get_mut(literal.variable) {
            *settings = settings.and(literal.settings);
        }
    }
    let rules = || clash.clauses.iter().filter_map(|number| vehicle.clauses.get(*number));
    let rules = || rules().filter(|rule| rule.severity != Severity::Nuisance);
    while !left.iter().any(|settings| settings.is_empty()) {
        let Some(forced) = rules().find_map(|rule| forced(rule, &left)) else { return false };
        if let Some(settings) = left.get_mut(forced.variable) {
            *settings = settings.minus(forced.settings);
        }
    }
    true
}

/// What a rule takes away, where all but one of its literals hold for certain.
fn forced(rule: &Clause, left: &[Settings]) -> Option<Literal> {
    let of = |one: &Literal| left.get(one.variable).copied().unwrap_or_default();
    if rule.literals.iter().any(|one| !of(one).meets(one.settings)) {
        return None;
    }
    let mut open = rule.literals.iter().filter(|one| !of(one).is_within(one.settings));
    match (open.next(), open.next()) {
        (Some(one), None) => Some(*one),
        (Some(_), Some(_)) => None,
        // It is broken: nothing is left.
        (None, _) => rule.literals.first().copied(),
    }
}
