//! Whether the planner and the oracle agree.

use std::collections::BTreeMap;

use stowfast_core::routine::{Cost, Outcome, Plan, Problem, Proof};
use stowfast_core::vehicle::Deed;

use crate::checker::{Violation, check};
use crate::oracle::Answer;

/// Whether some step moves what one could look at, though it stood as a goal asks that has it fresh.
/// Such plans the planner leaves out: see DEVELOPERS.md.
#[must_use]
pub fn freshens_by_moving(problem: &Problem, steps: &[usize]) -> bool {
    let vehicle = problem.vehicle;
    let is_looked_at = |variable: usize| {
        let looks = vehicle.actions.iter().filter(|one| one.deed == Deed::Look);
        looks.flat_map(|look| &look.effects).any(|one| one.variable == variable && !one.spoilt)
    };
    let stood_right = |variable: usize| {
        let known = problem.beliefs.get(variable).copied().unwrap_or_default();
        let asked = problem.goals.iter().filter(|goal| goal.fresh).flat_map(|goal| &goal.any_of);
        asked.into_iter().any(|one| one.variable == variable && known.is_within(one.settings))
    };
    let moves =
        steps.iter().filter_map(|step| vehicle.actions.get(*step)).filter(|a| a.deed == Deed::Move);
    moves
        .flat_map(|action| action.effects.iter().filter(|effect| !effect.spoilt))
        .any(|effect| is_looked_at(effect.variable) && stood_right(effect.variable))
}

/// What a plan costs without the steps that it makes only to let time pass, so that what must not end
/// alone begins later: without them it is permitted too, and leads to the same. Such plans the planner
/// leaves out: see DEVELOPERS.md.
fn without_idling(problem: &Problem, steps: &[usize]) -> Option<Cost> {
    let costs = |steps: &[usize]| {
        let (cost, proof) = (Cost { backward: u32::MAX, ..Cost::default() }, Proof::Exact);
        let plan = Plan { steps: steps.to_vec(), wait_s: BTreeMap::new(), cost, proof, nodes: 0 };
        let mut found = check(problem, &plan);
        found.retain(|one| !matches!(one, Violation::Left(..)));
        match found.as_slice() {
            [Violation::Cost(cost)] => Some(**cost),
            _ => None,
        }
    };
    // What was begun only for that is ended too: a pair goes together.
    let mut steps = steps.to_vec();
    let shorter = |steps: &[usize]| {
        let places = (0..steps.len()).flat_map(|one| (one..steps.len()).map(move |two| (one, two)));
        let without = |(one, two): (usize, usize)| -> Vec<usize> {
            let kept = steps.iter().enumerate().filter(|(place, _)| *place != one && *place != two);
            kept.map(|(_, step)| *step).collect()
        };
        places.map(without).find(|fewer| costs(fewer).is_some())
    };
    while let Some(fewer) = shorter(&steps) {
        steps = fewer;
    }
    costs(&steps)
}

/// How an answer of the planner stands to the oracle's.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Judged {
    /// As the oracle says.
    Same,
    /// Otherwise.
    Different,
    /// The oracle freshens something by moving it, or does something only to let time pass.
    Odd,
    /// One of them did not answer.
    Open,
}

/// Judges the planner's answer: possible where the oracle says so, and at the same cost.
#[must_use]
pub fn judge(problem: &Problem, outcome: &Outcome, answer: &Answer) -> Judged {
    let same = match (outcome, answer) {
        (Outcome::NotFound, _) | (_, Answer::TooLarge) => return Judged::Open,
        (Outcome::Plan(_), Answer::Impossible { .. })
        | (Outcome::Impossible(_), Answer::Possible { .. }) => false,
        (Outcome::Impossible(_), Answer::Impossible { .. }) => true,
        (Outcome::Plan(plan), Answer::Possible { cost, .. }) => match plan.proof {
            Proof::Exact => plan.cost == *cost,
            Proof::Gap { seconds } => {
                let weightier =
                    |cost: &Cost| (cost.danger_s, cost.damage_s, cost.alone_s, cost.nuisances);
                *cost <= plan.cost
                    && (weightier(cost) < weightier(&plan.cost)
                        || plan.cost.elapsed_s <= cost.elapsed_s.saturating_add(seconds))
            }
        },
    };
    let is_no_better = |steps: &[usize]| match outcome {
        Outcome::Plan(plan) => without_idling(problem, steps).is_some_and(|cost| cost >= plan.cost),
        Outcome::Impossible(_) | Outcome::NotFound => false,
    };
    let odd = match answer {
        Answer::Possible { steps, .. } => {
            let ages = problem.vehicle.variables.iter().filter_map(|known| known.age_of);
            let idles = ages.into_iter().any(|age| age.attended) && is_no_better(steps);
            freshens_by_moving(problem, steps) || idles
        }
        Answer::Impossible { .. } | Answer::TooLarge => false,
    };
    match (same, odd) {
        (true, _) => Judged::Same,
        (false, true) => Judged::Odd,
        (false, false) => Judged::Different,
    }
}
