//! Whether a problem can have a plan at all, at a glance.

use super::form::{Aim, Compiled, Lit, Step, at, settings_of};

/// Settings tried before it is left open whether all aims can hold at once.
const TRIES_MAX: usize = 2_000;

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
        && may_hold_together(&compiled.aims, &mut seen, TRIES_MAX).is_none_or(|may| may)
}

/// Whether each variable can have one of its settings so that every aim holds at once, the aims with
/// the fewest ways first; `None` where that takes too long to tell.
fn may_hold_together(aims: &[Aim], settings: &mut [u8], tries: usize) -> Option<bool> {
    let mut order: Vec<&Aim> = aims.iter().collect();
    order.sort_by_key(|aim| aim.lits.len());
    let mut tries = tries;
    fit(&order, settings, &mut tries)
}

fn fit(aims: &[&Aim], settings: &mut [u8], tries: &mut usize) -> Option<bool> {
    let Some((aim, rest)) = aims.split_first() else { return Some(true) };
    let holds = |lit: &Lit| at(settings, lit.var) & !lit.set == 0;
    if aim.lits.iter().any(holds) {
        return fit(rest, settings, tries);
    }
    for lit in &aim.lits {
        let before = at(settings, lit.var);
        let Some(cell) = settings.get_mut(lit.var).filter(|_| before & lit.set != 0) else {
            continue;
        };
        *cell = before & lit.set;
        *tries = tries.checked_sub(1)?;
        let fits = fit(rest, settings, tries);
        if fits != Some(false) {
            return fits;
        }
        if let Some(cell) = settings.get_mut(lit.var) {
            *cell = before;
        }
    }
    Some(false)
}
