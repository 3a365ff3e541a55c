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

/// Whether some look is of no use but for where it is made: so that a wait is waited there, and the
/// walk falls within it. Such plans the planner leaves out: see DEVELOPERS.md.
#[must_use]
pub fn looks_for_a_place_to_wait(problem: &Problem, steps: &[usize]) -> bool {
    let deed = |step: &usize| problem.vehicle.actions.get(*step).map(|one| one.deed);
    let waits = steps.iter().any(|step| deed(step) == Some(Deed::Wait));
    let mut looks = (0..steps.len()).filter(|at| steps.get(*at).and_then(deed) == Some(Deed::Look));
    waits
        && looks.any(|place| {
            let mut fewer = steps.to_vec();
            fewer.remove(place);
            let plan = Plan {
                steps: fewer,
                wait_s: BTreeMap::new(),
                cost: Cost::default(),
                proof: Proof::Exact,
                nodes: 0,
            };
            check(problem, &plan).iter().all(|one| matches!(one, Violation::Cost(_)))
        })
}

/// How an answer of the planner stands to the oracle's.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Judged {
    /// As the oracle says.
    Same,
    /// Otherwise.
    Different,
    /// The oracle freshens something by moving it, or looks only to wait in another place.
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
                let weightier = |cost: &Cost| (cost.danger_s, cost.damage_s, cost.nuisances);
                *cost <= plan.cost
                    && (weightier(cost) < weightier(&plan.cost)
                        || plan.cost.elapsed_s <= cost.elapsed_s.saturating_add(seconds))
            }
        },
    };
    let odd = match answer {
        Answer::Possible { steps, .. } => {
            freshens_by_moving(problem, steps) || looks_for_a_place_to_wait(problem, steps)
        }
        Answer::Impossible { .. } | Answer::TooLarge => false,
    };
    match (same, odd) {
        (true, _) => Judged::Same,
        (false, true) => Judged::Odd,
        (false, false) => Judged::Different,
    }
}
