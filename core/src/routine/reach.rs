//! Whether a problem can have a plan at all, at a glance.
//!
//! Between two steps a belief is what it was at the start or one setting that a step brought or a
//! look found: so much is kept for each variable of all that it may come to, whatever comes first.

use super::form::{Beliefs, Compiled, Lit, Step, at, settings_of};
use super::useful::useful;
use crate::catalogue::Severity;

/// Settings tried before it is left open whether all that must hold in the end can do so at once.
const TRIES_MAX: usize = 2_000;
/// That nothing is known yet beyond several settings, beside the bits of the settings.
const AS_FOUND: u8 = 0x40;

/// What a variable must have come to for a literal to hold for certain, or not to hold.
#[derive(Clone, Copy)]
struct Asked {
    var: usize,
    any_of: u8,
}

impl Asked {
    fn to_hold(lit: &Lit, start: &Beliefs) -> Self {
        let as_found = if lit.must_hold(start) { AS_FOUND } else { 0 };
        Self { var: lit.var, any_of: lit.set | as_found }
    }

    fn to_fail(lit: &Lit, start: &Beliefs) -> Self {
        let as_found = if lit.may_hold(start) { 0 } else { AS_FOUND };
        Self { var: lit.var, any_of: !lit.set & 0x3f | as_found }
    }

    fn can_be(self, seen: &[u8]) -> bool {
        at(seen, self.var) & self.any_of != 0
    }
}

/// Whether every aim can be met by steps of use when what is in the way is looked at one literal at
/// a time: quick to refute, never wrong when it does.
pub(super) fn may_be_reached(compiled: &Compiled) -> bool {
    if compiled.hopeless {
        return false;
    }
    let start = &compiled.start;
    let known = |belief: &u8| match settings_of(*belief) {
        one if one.is_power_of_two() => one,
        _ => AS_FOUND,
    };
    let mut seen: Vec<u8> = start.iter().map(known).collect();
    let of_use = useful(compiled, start).steps;
    let mut taken = vec![false; compiled.steps.len()];
    let brings = |step: &Step, lit: &Lit| step.new_settings(lit.var) & lit.set != 0;
    loop {
        let mut grown = false;
        let steps = compiled.steps.iter().zip(&mut taken).zip(&of_use);
        for ((step, taken), _) in steps.filter(|(_, of_use)| **of_use) {
            let holds = |lit: &Lit| Asked::to_hold(lit, start).can_be(&seen);
            let clear = |rule: &usize| {
                compiled.rules.get(*rule).is_none_or(|rule| {
                    let off =
                        |lit: &Lit| !brings(step, lit) && Asked::to_fail(lit, start).can_be(&seen);
                    let held = |lit: &Lit| !brings(step, lit) || holds(lit);
                    rule.lits.iter().any(off) || rule.lits.iter().all(held)
                })
            };
            if *taken || !step.before.iter().all(holds) || !step.rules.iter().all(clear) {
                continue;
            }
            *taken = true;
            grown = true;
            for change in &step.changes {
                if let Some(cell) = seen.get_mut(change.var) {
                    *cell |= change.seen;
                }
            }
        }
        if !grown {
            break;
        }
    }
    let taken = |number: &usize| taken.get(*number) == Some(&true);
    compiled.aims.iter().all(|aim| aim.is_met(start) || aim.steps.iter().any(taken))
        && may_hold_together(in_the_end(compiled), &mut seen).is_none_or(|may| may)
}

/// What must be so in the end: the aims, and that each rule that is off at the start is off. No step
/// makes a literal of it possible unless it stays off.
fn in_the_end(compiled: &Compiled) -> Vec<Vec<Asked>> {
    let start = &compiled.start;
    let to_hold = |lits: &[Lit]| lits.iter().map(|lit| Asked::to_hold(lit, start)).collect();
    let to_fail = |lits: &[Lit]| lits.iter().map(|lit| Asked::to_fail(lit, start)).collect();
    let aims = compiled.aims.iter().map(|aim| to_hold(&aim.lits));
    let grave = compiled.rules.iter().filter(|rule| rule.severity != Severity::Nuisance);
    let off = grave.filter(|rule| !rule.lits.iter().all(|lit| lit.may_hold(start)));
    aims.chain(off.map(|rule| to_fail(&rule.lits))).collect()
}

/// Whether each variable can have come to one thing so that all of it is so at once, what has the
/// fewest ways first; `None` where that takes too long to tell.
fn may_hold_together(mut all: Vec<Vec<Asked>>, seen: &mut [u8]) -> Option<bool> {
    all.sort_by_key(Vec::len);
    fit(&all, seen, &mut { TRIES_MAX })
}

fn fit(all: &[Vec<Asked>], seen: &mut [u8], tries: &mut usize) -> Option<bool> {
    let Some((any_of, rest)) = all.split_first() else { return Some(true) };
    if any_of.iter().any(|one| at(seen, one.var) & !one.any_of == 0) {
        return fit(rest, seen, tries);
    }
    for one in any_of {
        let before = at(seen, one.var);
        let Some(cell) = seen.get_mut(one.var).filter(|_| before & one.any_of != 0) else {
            continue;
        };
        *cell = before & one.any_of;
        *tries = tries.checked_sub(1)?;
        let fits = fit(rest, seen, tries);
        if fits != Some(false) {
            return fits;
        }
        if let Some(cell) = seen.get_mut(one.var) {
            *cell = before;
        }
    }
    Some(false)
}
