//! The one reduction: steps that a cheapest plan takes at once.

use super::{Node, Search, YOUNG};
use crate::routine::bound::Need;
use crate::routine::form::{NEVER, OfUse, Step, at, settings_of};

impl Search<'_> {
    /// A free step of a node that was opened.
    pub(super) fn free_step_at(&self, node: usize, of_use: &OfUse) -> Option<usize> {
        let node = self.nodes.get(node)?;
        let needs = self.bound.needs(node.to_do, &node.beliefs, node.zone);
        self.free_step(node, of_use, &needs)
    }

    /// A free step for one of some `needs` of the zone. What a free step does leaves every other need as it was.
    pub(super) fn free_step(&self, node: &Node, of_use: &OfUse, needs: &[Need]) -> Option<usize> {
        // What starts a clock must not be put off for the sake of what is free: a hasty search, which
        // tells how far it may be off, does so.
        // Nor does one stay away for it from what must not end alone.
        let is_of_use = |step: &usize| of_use.steps.get(*step) == Some(&true);
        let mut clocks = self.compiled.clocks.iter().zip(&node.ripe_s).zip(&self.begins);
        let to_start = clocks.any(|((clock, ripe_s), begins)| match *ripe_s {
            NEVER => {
                clock.limit_s > 0
                    && settings_of(at(&node.beliefs, clock.var)) & YOUNG != 0
                    && begins.iter().any(is_of_use)
            }
            _ => clock.attended.is_some(),
        });
        if !self.reduced
            || node.idle_s() > 0
            || (to_start && self.haste == 1)
            || self.compiled.broken(&node.beliefs) != (false, false)
        {
            return None;
        }
        let left = needs.iter().filter(|need| !need.is_met(&node.beliefs));
        let free = left.filter_map(|need| {
            let mut steps = need.steps.iter().copied();
            steps.find(|step| self.is_free(&node.beliefs, *step, need, of_use))
        });
        free.min()
    }

    /// Whether a step is the cheapest way to what must come about, and nothing speaks against it.
    fn is_free(&self, beliefs: &[u8], number: usize, need: &Need, of_use: &OfUse) -> bool {
        let Some(step) = self.compiled.steps.get(number) else { return false };
        if !step.is_harmless(number, of_use) || !self.compiled.is_permitted(beliefs, step) {
            return false;
        }
        let var = need.lit.var;
        let after = step.belief_after(beliefs, var);
        let only_own = |one: &Step| {
            let is_left = |var: usize| one.belief_after(beliefs, var) == at(beliefs, var);
            one.changes.iter().all(|change| change.var == var || is_left(change.var))
        };
        let is_no_worse = |other: &Step| {
            let then = other.belief_after(beliefs, var);
            !need.is_met_by(then)
                || (then == after
                    && (other.disturbs, other.seconds) >= (step.disturbs, step.seconds)
                    && only_own(other))
        };
        let mut all = need.steps.iter().filter_map(|other| self.compiled.steps.get(*other));
        let mut burdens = step.burdens.iter().filter_map(|one| self.compiled.rules.get(*one));
        need.is_met_by(after)
            && only_own(step)
            && burdens.all(|rule| rule.is_off_for_good(of_use, step))
            && all.all(is_no_worse)
            && step.is_of_effect(beliefs, &step.apply(beliefs))
    }
}
