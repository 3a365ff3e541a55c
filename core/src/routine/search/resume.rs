//! Going on with steps that were planned before, and leaving out what is of no use.

use super::{Node, Search};
use crate::routine::{Plan, Problem, Proof, compile};
use crate::vehicle::Deed;

/// What is left of a plan as a plan from here: its steps in their order, each wait as long as it
/// still is, and one put in where its time was filled by what went quicker than planned. `None`
/// where the steps no longer lead to the goals. Its proof says nothing of other plans.
pub(in crate::routine) fn resume(problem: &Problem, rest: &[usize]) -> Option<Plan> {
    let compiled = compile::compile(problem);
    let search = Search::new(problem, &compiled, true, 1);
    let node = search.go_on(&search.numbered(rest))?;
    Some(search.plan_of(node.taken, node.cost, Proof::Exact))
}

/// The plan without what it can do without at no more cost: what only filled a wait, or was found by
/// a search that did not ask what is cheapest.
pub(in crate::routine) fn trim(problem: &Problem, plan: Plan) -> Plan {
    let waits = |step: &usize| {
        problem.vehicle.actions.get(*step).is_some_and(|action| action.deed == Deed::Wait)
    };
    if plan.proof == Proof::Exact && !plan.steps.iter().any(waits) {
        return plan;
    }
    let compiled = compile::compile(problem);
    let search = Search::new(problem, &compiled, true, 1);
    let Some(mut best) = search.go_on(&search.numbered(&plan.steps)) else { return plan };
    let mut place = best.taken.len();
    while place > 0 {
        place = place.saturating_sub(1);
        let mut fewer = best.taken.clone();
        if place < fewer.len() {
            fewer.remove(place);
        }
        let shorter = |node: &Node| node.taken.len() < best.taken.len() && node.cost <= best.cost;
        if let Some(node) = search.go_on(&fewer).filter(shorter) {
            best = node;
        }
    }
    if best.taken.len() >= plan.steps.len() {
        return plan;
    }
    let (proof, nodes) = (plan.proof, plan.nodes);
    Plan { nodes, ..search.plan_of(best.taken, best.cost, proof) }
}

impl Search<'_> {
    fn numbered(&self, actions: &[usize]) -> Vec<usize> {
        let number = |action| self.compiled.steps.iter().position(|step| step.number == action);
        actions.iter().filter_map(|action| number(*action)).collect()
    }

    /// Where some steps lead, with a wait before what is too early, if all aims are met in the end.
    fn go_on(&self, steps: &[usize]) -> Option<Node> {
        let mut node = self.start();
        for step in steps {
            node = self.next(&node, *step).or_else(|| self.next_after_a_wait(&node, *step))?;
        }
        let done = self.compiled.aims.iter().all(|aim| aim.is_met(&node.beliefs));
        done.then_some(node)
    }

    /// The node after a step, or the same one where the step changes nothing; `None` where it is
    /// not permitted.
    fn next(&self, node: &Node, next: usize) -> Option<Node> {
        let step = self.compiled.steps.get(next)?;
        let after = step.apply(&node.beliefs);
        let mut taken = node.taken.clone();
        if !step.is_of_effect(&node.beliefs, &after) {
            let (beliefs, ripe_s) = (node.beliefs.clone(), node.ripe_s.clone());
            return Some(Node { beliefs, ripe_s, taken, ..*node });
        }
        if !self.compiled.is_permitted(&node.beliefs, step) {
            return None;
        }
        taken.push(next);
        Some(Node { taken, ..self.take(node, step, after)? })
    }

    fn next_after_a_wait(&self, node: &Node, next: usize) -> Option<Node> {
        let steps = self.compiled.steps.iter().enumerate();
        let mut waits = steps.filter(|(_, step)| step.deed == Deed::Wait);
        waits.find_map(|(wait, _)| self.next(&self.next(node, wait)?, next))
    }
}
