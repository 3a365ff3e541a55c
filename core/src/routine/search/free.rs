//! The one reduction: steps that a cheapest plan takes at once.

use super::{Node, Search, YOUNG};
use crate::routine::bound::Need;
use crate::routine::form::{Change, NEVER, OfUse, Step, at, settings_of};

impl Search<'_> {
    /// A free step of a node that was opened.
    pub(super) fn free_step_at(&self, node: usize, of_use: &OfUse) -> Option<usize> {
        let node = self.nodes.get(node)?;
        self.free_step(node, of_use, &self.bound.needs(&node.beliefs))
    }

    /// A free step for one of some `needs`. What a free step does leaves every other need as it was.
    pub(super) fn free_step(&self, node: &Node, of_use: &OfUse, needs: &[Need]) -> Option<usize> {
        // What starts a clock must not be put off for the sake of what is free: a hasty search, which
        // tells how far it may be off, does so.
        let mut clocks = self.compiled.clocks.iter().zip(&node.ripe_s);
        let to_start = clocks.any(|(clock, ripe_s)| {
            clock.limit_s > 0
                && *ripe_s == NEVER
                && settings_of(at(&node.beliefs, clock.var)) & YOUNG != 0
        });
        if !self.reduced
            || node.idle_s() > 0
            || (to_start && self.haste == 1)
            || self.compiled.broken(&node.beliefs) != (false, false)
        {
            return None;
        }
        let here = |need: &&Need| {
            if need.is_met(&node.beliefs) {
                return false;
            }
            let mut steps = need.steps.iter().filter_map(|one| self.compiled.steps.get(*one));
            steps.all(|step| step.zone == node.zone)
        };
        let free = needs.iter().filter(here).filter_map(|need| {
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
        let after = step.apply(beliefs);
        let only_own = |one: &Step, after: &[u8]| {
            let changed = |change: &&Change| at(after, change.var) != at(beliefs, change.var);
            one.changes.iter().filter(changed).all(|change| change.var == need.lit.var)
        };
        let is_no_worse = |other: &Step| {
            let then = other.apply(beliefs);
            !need.is_met(&then)
                || (at(&then, need.lit.var) == at(&after, need.lit.var)
                    && (other.disturbs, other.seconds) >= (step.disturbs, step.seconds)
                    && only_own(other, &then))
        };
        let mut all = need.steps.iter().filter_map(|other| self.compiled.steps.get(*other));
        let mut burdens = step.burdens.iter().filter_map(|one| self.compiled.rules.get(*one));
        need.is_met(&after)
            && step.is_of_effect(beliefs, &after)
            && only_own(step, &after)
            && burdens.all(|rule| rule.is_off_for_good(of_use, step))
            && all.all(is_no_worse)
    }
}
