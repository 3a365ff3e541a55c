//! The one reduction: steps that a cheapest plan takes at once.

use super::{Node, Search, YOUNG};
use crate::routine::form::{Aim, Change, NEVER, Step, at, settings_of};

impl Search<'_> {
    pub(super) fn free_step(&self, node: &Node) -> Option<usize> {
        // What starts a clock must not be put off for the sake of what is free: a hasty search, which
        // tells how far it may be off, does so.
        let mut clocks = self.compiled.clocks.iter().zip(&node.ripe_s);
        let to_start = clocks.any(|(clock, ripe_s)| {
            *ripe_s == NEVER && settings_of(at(&node.beliefs, clock.var)) & YOUNG != 0
        });
        if !self.reduced
            || (to_start && self.haste == 1)
            || self.compiled.broken(&node.beliefs) != (false, false)
        {
            return None;
        }
        let steps = self.compiled.steps.iter().enumerate();
        let here = steps.filter(|(_, step)| step.harmless && step.zone == node.zone);
        here.filter(|(_, step)| self.is_free(&node.beliefs, step)).map(|(next, _)| next).next()
    }

    fn is_free(&self, beliefs: &[u8], step: &Step) -> bool {
        let after = step.apply(beliefs);
        let only_own = |one: &Step, after: &[u8], var: usize| {
            let changed = |change: &&Change| at(after, change.var) != at(beliefs, change.var);
            one.changes.iter().filter(changed).all(|change| change.var == var)
        };
        let sole = |aim: &Aim, var: usize| {
            aim.steps.iter().filter_map(|other| self.compiled.steps.get(*other)).all(|other| {
                let then = other.apply(beliefs);
                !aim.is_met(&then)
                    || (other.zone == step.zone
                        && at(&then, var) == at(&after, var)
                        && (other.disturbs, other.seconds) >= (step.disturbs, step.seconds)
                        && only_own(other, &then, var))
            })
        };
        let serves = |aim: &Aim| match aim.lits.as_slice() {
            [lit] => {
                !aim.is_met(beliefs)
                    && aim.is_met(&after)
                    && only_own(step, &after, lit.var)
                    && sole(aim, lit.var)
            }
            _ => false,
        };
        step.is_of_effect(beliefs, &after)
            && self.compiled.aims.iter().any(serves)
            && self.compiled.is_permitted(beliefs, step)
            && {
                let mut burdens =
                    step.burdens.iter().filter_map(|one| self.compiled.rules.get(*one));
                burdens.all(|rule| rule.is_off_for_good(beliefs, step))
            }
    }
}
