//! What each compiled step bears on and serves, worked out once.

use super::form::{Aim, Compiled, Lit, Rule, Step};
use crate::catalogue::Severity;
use crate::vehicle::Deed;

/// Marks which rules each step bears on, which steps meet each aim, and which steps are harmless.
pub(super) fn mark(compiled: &mut Compiled) {
    let (rules, aims) = (&compiled.rules, &mut compiled.aims);
    let steps = compiled.steps.clone();
    let numbered = || rules.iter().enumerate();
    for step in &mut compiled.steps {
        step.harmless = step.deed != Deed::Wait && is_harmless(step, &steps, aims);
        let is_nuisance = |number: &usize| {
            rules.get(*number).is_some_and(|rule| rule.severity == Severity::Nuisance)
        };
        let bears_on = numbered().filter(|(_, rule)| step.bears_on(rule)).map(|(n, _)| n);
        (step.nuisances, step.rules) = bears_on.partition(is_nuisance);
        let burdens = |rule: &Rule| step.changes.iter().any(|one| meets(one.var, one.to, rule));
        step.burdens = numbered().filter(|(_, rule)| burdens(rule)).map(|(n, _)| n).collect();
    }
    for aim in aims {
        let meets = |step: &Step| aim.lits.iter().any(|lit| step.may_bring_about(*lit, aim.fresh));
        aim.steps =
            steps.iter().enumerate().filter(|(_, step)| meets(step)).map(|(n, _)| n).collect();
    }
}

fn meets(var: usize, set: u8, rule: &Rule) -> bool {
    rule.lits.iter().any(|lit| lit.var == var && set & lit.set != 0)
}

/// Whether nothing waits for a step's changes to be otherwise (no condition of another step, no
/// aim) and no other step throws them back. A look changes nothing that could be waited for.
fn is_harmless(step: &Step, steps: &[Step], aims: &[Aim]) -> bool {
    step.changes.iter().filter(|change| !change.spoilt).all(|change| {
        let against = |lit: &Lit| lit.var == change.var && change.to & lit.set == 0;
        let waited_for = steps.iter().flat_map(|other| &other.before).any(against)
            || aims.iter().any(|aim| aim.lits.iter().any(against));
        let thrown_back = steps.iter().any(|other| {
            let mut sets = other.changes.iter().filter(|one| other.brings(one));
            sets.any(|one| one.var == change.var && one.to != change.to)
        });
        (step.deed == Deed::Look || !waited_for) && !thrown_back
    })
}
