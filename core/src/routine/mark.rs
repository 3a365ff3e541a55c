//! What each compiled step bears on and serves, worked out once.

use super::form::{Aim, Change, Compiled, Lit, Rule, Step};
use crate::catalogue::Severity;
use crate::vehicle::Deed;

/// Marks which rules each step bears on, which steps meet each aim, and which steps are harmless.
pub(super) fn mark(compiled: &mut Compiled) {
    let (rules, aims) = (&compiled.rules, &mut compiled.aims);
    let steps = compiled.steps.clone();
    let numbered = || rules.iter().enumerate();
    for step in &mut compiled.steps {
        step.harmless = step.deed != Deed::Wait && is_harmless(step, &steps, aims);
        let brings = |one: &&Change| one.spoilt || step.deed != Deed::Look;
        let bears = |rule: &Rule| {
            rule.severity != Severity::Nuisance
                && step
                    .changes
                    .iter()
                    .filter(brings)
                    .any(|one| meets(one.var, one.to | one.middle, rule))
        };
        let nuisance = |rule: &Rule| {
            rule.severity == Severity::Nuisance
                && rule.lits.iter().any(|lit| step.new_settings(lit.var) & lit.set != 0)
        };
        step.nuisances = numbered().filter(|(_, rule)| nuisance(rule)).map(|(n, _)| n).collect();
        let burdens = |rule: &Rule| step.changes.iter().any(|one| meets(one.var, one.to, rule));
        step.rules = numbered().filter(|(_, rule)| bears(rule)).map(|(n, _)| n).collect();
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
            let sets = |one: &Change| one.spoilt || other.deed != Deed::Look;
            other
                .changes
                .iter()
                .any(|one| sets(one) && one.var == change.var && one.to != change.to)
        });
        (step.deed == Deed::Look || !waited_for) && !thrown_back
    })
}
