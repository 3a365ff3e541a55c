//! Whether a problem can have a plan at all, at a glance.

use super::form::{Compiled, Lit, Step, at, settings_of};

/// Whether every aim can be met when what is in the way is looked at one literal at a time: quick
/// to refute, never wrong when it does.
pub(super) fn may_be_reached(compiled: &Compiled) -> bool {
    let mut seen = compiled.start.iter().map(|one| settings_of(*one)).collect::<Vec<_>>();
    let mut taken = vec![false; compiled.steps.len()];
    let can = |seen: &[u8], lit: &Lit| at(seen, lit.var) & lit.set != 0;
    let can_fail = |seen: &[u8], lit: &Lit| at(seen, lit.var) & !lit.set != 0;
    let brings = |step: &Step, lit: &Lit| step.new_settings(lit.var) & lit.set != 0;
    loop {
        let mut grown = false;
        for (step, taken) in compiled.steps.iter().zip(&mut taken) {
            let clear = |rule: &usize| {
                compiled.rules.get(*rule).is_none_or(|rule| {
                    let off = |lit: &Lit| !brings(step, lit) && can_fail(&seen, lit);
                    let held = |lit: &Lit| !brings(step, lit) || can(&seen, lit);
                    rule.lits.iter().any(off) || rule.lits.iter().all(held)
                })
            };
            if *taken
                || !step.before.iter().all(|lit| can(&seen, lit))
                || !step.rules.iter().all(clear)
            {
                continue;
            }
            *taken = true;
            grown = true;
            for change in &step.changes {
                if let Some(cell) = seen.get_mut(change.var) {
                    *cell |= change.to;
                }
            }
        }
        if !grown {
            break;
        }
    }
    let taken = |number: &usize| taken.get(*number) == Some(&true);
    compiled.aims.iter().all(|aim| aim.is_met(&compiled.start) || aim.steps.iter().any(taken))
}
