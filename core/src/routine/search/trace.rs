//! From the steps that were found to the plan.

use std::collections::{BTreeMap, BTreeSet};

use super::{Node, Search};
use crate::routine::form::{NEVER, Step};
use crate::routine::{Cost, Plan, Proof};
use crate::vehicle::Deed;

impl Search<'_> {
    /// Where some steps lead, taken in this order without those that come by themselves and with
    /// the waits that they need, if every one is permitted and all aims are met in the end.
    pub(super) fn follow(&self, steps: &[usize]) -> Option<Node> {
        let mut node = self.start();
        for next in steps {
            let step = self.compiled.steps.get(*next)?;
            let nothing_runs =
                step.deed == Deed::Wait && !self.compiled.is_permitted(&node.beliefs, step);
            if nothing_runs || !step.is_of_effect(&node.beliefs, &step.apply(&node.beliefs)) {
                continue;
            }
            while !self.compiled.is_permitted(&node.beliefs, step) {
                self.wait(&mut node)?;
            }
            if self.see_to_ends(&mut node, step) {
                if !self.compiled.is_permitted(&node.beliefs, step) {
                    return None;
                }
                if !step.is_of_effect(&node.beliefs, &step.apply(&node.beliefs)) {
                    continue;
                }
            }
            self.go(&mut node, *next)?;
        }
        while !self.compiled.aims.iter().all(|aim| aim.is_met(&node.beliefs)) {
            self.wait(&mut node)?;
        }
        Some(node)
    }

    /// Takes one step more; `None` where it cannot, as [`Search::take`].
    pub(super) fn go(&self, node: &mut Node, next: usize) -> Option<()> {
        let step = self.compiled.steps.get(next)?;
        let then = self.take(node, step, step.apply(&node.beliefs))?;
        node.taken.push(next);
        *node = Node { parent: node.parent, taken: std::mem::take(&mut node.taken), ..then };
        Some(())
    }

    /// Whether a step can be taken now and does anything.
    pub(super) fn can_go(&self, node: &Node, step: &Step) -> bool {
        step.is_of_effect(&node.beliefs, &step.apply(&node.beliefs))
            && self.compiled.is_permitted(&node.beliefs, step)
    }

    pub(super) fn is_wait(&self, step: usize) -> bool {
        self.compiled.steps.get(step).is_some_and(|step| step.deed == Deed::Wait)
    }

    /// Waits for the age that is old soonest.
    pub(super) fn wait(&self, node: &mut Node) -> Option<()> {
        let waits = self.compiled.steps.iter().enumerate().filter_map(|(number, step)| {
            let ripe_s = *node.ripe_s.get(self.compiled.clock_of(step)?)?;
            (ripe_s != NEVER && self.can_go(node, step)).then_some((ripe_s, number))
        });
        let (_, next) = waits.min()?;
        self.go(node, next)
    }

    /// The same steps, each as early a one in the technician's order as meets the same aim at no
    /// more cost: so that the same leaving looks the same every day.
    fn earliest(&self, mut steps: Vec<usize>, cost: Cost) -> Vec<usize> {
        for place in 0..steps.len() {
            let Some(now) = steps.get(place).copied() else { break };
            let aims = self.compiled.aims.iter().filter(|aim| aim.steps.contains(&now));
            let others: BTreeSet<usize> = aims.flat_map(|aim| &aim.steps).copied().collect();
            for other in others.range(..now).filter(|other| !steps.contains(other)) {
                let mut tried = steps.clone();
                tried.splice(place..=place, [*other]);
                if let Some(node) = self.follow(&tried)
                    && node.cost <= cost
                    && node.taken == tried
                {
                    steps = tried;
                    break;
                }
            }
        }
        steps
    }

    /// Where some steps lead, with what can as well be done during each wait put before its end.
    pub(super) fn with_waits_filled(&self, steps: &[usize]) -> Option<Node> {
        let mut best = self.follow(steps)?;
        let waits: Vec<usize> =
            best.taken.iter().copied().filter(|step| self.is_wait(*step)).collect();
        for wait in waits {
            let Some(place) = best.taken.iter().position(|step| *step == wait) else { continue };
            let mut before = place;
            for later in place.saturating_add(1)..best.taken.len() {
                let mut tried = best.taken.clone();
                if let Some(moved) = tried.get_mut(before..=later) {
                    moved.rotate_right(1);
                }
                if let Some(node) = self.follow(&tried).filter(|node| node.cost < best.cost)
                    && node.taken.len() == tried.len()
                {
                    best = node;
                    before = before.saturating_add(1);
                }
            }
        }
        Some(best)
    }

    /// The same without what it can do without at no more cost: what only filled a wait, or was
    /// found by a search that did not ask what is cheapest.
    pub(super) fn without_idle(&self, mut best: Node) -> Node {
        for place in (0..best.taken.len()).rev() {
            let mut fewer = best.taken.clone();
            if place < fewer.len() {
                fewer.remove(place);
            }
            let shorter =
                |node: &Node| node.taken.len() < best.taken.len() && node.cost <= best.cost;
            if let Some(node) = self.follow(&fewer).filter(shorter) {
                best = node;
            }
        }
        best
    }

    /// The steps that lead to a node.
    pub(super) fn steps_to(&self, node: usize) -> Vec<usize> {
        let mut steps = Vec::new();
        let mut next = Some(node);
        while let Some(node) = next.and_then(|number| self.nodes.get(number)) {
            steps.extend(node.taken.iter().rev());
            next = (next != Some(0)).then_some(node.parent);
        }
        steps.reverse();
        steps
    }

    /// The plan of the steps to a node.
    pub(super) fn plan_of(&self, node: Node, proof: Proof, nodes: usize) -> Plan {
        let steps = self.earliest(node.taken, node.cost);
        let steps = steps.iter().filter_map(|one| self.compiled.steps.get(*one));
        let steps: Vec<usize> = steps.map(|step| step.number).collect();
        let wait_s = self.wait_s(&steps);
        Plan { steps, wait_s, cost: node.cost, proof, nodes }
    }

    /// What is left of each wait among some steps, by its place, once one is where it is waited.
    fn wait_s(&self, steps: &[usize]) -> BTreeMap<usize, u32> {
        let mut node = self.start();
        let mut waits = BTreeMap::new();
        // Waits since the last step, each with when it is over.
        let mut since: Vec<(usize, u32)> = Vec::new();
        for (place, number) in steps.iter().enumerate() {
            let Some(step) = self.compiled.steps.iter().find(|step| step.number == *number) else {
                continue;
            };
            let after = step.apply(&node.beliefs);
            let Some(then) = self.take(&node, step, after) else { continue };
            if step.deed == Deed::Wait {
                since.push((place, then.cost.elapsed_s));
            } else {
                let walk_s = self.problem.vehicle.walks.between(node.zone, step.zone);
                waits.extend(left_of(&since, node.free_s.saturating_add(walk_s)));
                since.clear();
            }
            node = then;
        }
        waits.extend(left_of(&since, node.free_s));
        waits
    }
}

/// What is left of some waits, one after the other, for who is there at a time.
fn left_of(waits: &[(usize, u32)], there_s: u32) -> impl Iterator<Item = (usize, u32)> {
    waits.iter().scan(there_s, |now_s, (place, over_s)| {
        let left_s = over_s.saturating_sub(*now_s);
        *now_s = (*now_s).max(*over_s);
        Some((*place, left_s))
    })
}
