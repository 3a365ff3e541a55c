//! Which actions can be of use: the argument of `useful.rs`, made at the start over all that the
//! vehicle allows. Of what is left, a move is left out where another action is as good in every
//! respect: `outdone.rs`.

mod outdone;

use super::Problem;
use super::form::Compiled;
use super::useful::Useful;
use crate::vehicle::{Action, Deed};

/// What is of use from the start, once what is outdone is left out, step by step until nothing is.
pub(super) fn relevant<'a>(problem: &Problem, whole: &'a Compiled) -> Useful<'a> {
    let mut left_out = vec![false; whole.steps.len()];
    loop {
        let allowed = |step: usize| left_out.get(step) == Some(&false);
        let useful = Useful::new(whole, &whole.start, allowed);
        let newly = outdone::outdone(problem, whole, &useful);
        if newly.is_empty() {
            return useful;
        }
        for step in newly {
            if let Some(left_out) = left_out.get_mut(step) {
                *left_out = true;
            }
        }
    }
}

/// Whether an action can be taken at all: nothing moves what is stuck, and no routine leaves the
/// place.
pub(super) fn is_possible(problem: &Problem, action: &Action) -> bool {
    let moves_stuck = action.deed == Deed::Move
        && action.effects.iter().any(|one| !one.spoilt && problem.stuck.contains(&one.variable));
    !moves_stuck && !action.leaves
}
