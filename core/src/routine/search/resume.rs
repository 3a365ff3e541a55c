//! Going on with steps that were planned before.

use super::Search;
use crate::routine::{Plan, Problem, Proof, compile};

/// What is left of a plan as a plan from here: its steps in their order, each wait as long as it
/// still is, and one put in where its time was filled by what went quicker than planned. `None`
/// where the steps no longer lead to the goals. Its proof says nothing of other plans.
pub(in crate::routine) fn resume(problem: &Problem, rest: &[usize]) -> Option<Plan> {
    let compiled = compile::compile(problem)?;
    let search = Search::new(problem, &compiled, true);
    let number = |action: &usize| compiled.steps.iter().position(|step| step.number == *action);
    let steps: Vec<usize> = rest.iter().filter_map(number).collect();
    let node = search.follow(&steps)?;
    Some(search.plan_of(node, Proof::Exact, 0))
}
