//! What each compiled step bears on and serves, worked out once.

use super::form::{Aim, Compiled, Lit, Rule, Step, mark_of, marks_of};
use crate::catalogue::Severity;
use crate::vehicle::Deed;

/// Marks which rules each step bears on, which steps meet each aim, and which steps are harmless.
pub(super) fn mark(compiled: &mut Compiled) {
    let (rules, aims) = (&mut compiled.rules, &mut compiled.aims);
    for rule in rules.iter_mut() {
        rule.on = marks_of(&rule.lits);
    }
    for aim in aims.iter_mut() {
        aim.on = marks_of(&aim.lits);
    }
    for step in &mut compiled.steps {
        step.acts_on = step.changes.iter().fold(0, |vars, one| vars | mark_of(one.var));
        let of_it = || rules.iter().enumerate().filter(|(_, rule)| rule.on & step.acts_on != 0);
        let bears_on = of_it().filter(|(_, rule)| step.bears_on(rule));
        let (nuisances, judged): (Vec<_>, Vec<_>) =
            bears_on.partition(|(_, rule)| rule.severity == Severity::Nuisance);
        let burdens = |rule: &Rule| step.changes.iter().any(|one| meets(one.var, one.to, rule));
        let burdens = of_it().filter(|(_, rule)| burdens(rule)).map(|(number, _)| number).collect();
        let on = nuisances.iter().chain(&judged).fold(0, |vars, (_, rule)| vars | rule.on);
        let numbers =
            |some: Vec<(usize, &Rule)>| some.into_iter().map(|(number, _)| number).collect();
        step.hangs_on = on | marks_of(&step.before);
        (step.nuisances, step.rules, step.burdens) = (numbers(nuisances), numbers(judged), burdens);
    }
    let steps = compiled.steps.clone();
    for step in &mut compiled.steps {
        step.harmless = step.deed != Deed::Wait && is_harmless(step, &steps, aims);
    }
    for aim in aims {
        let meets = |step: &Step| {
            step.acts_on & aim.on != 0
                && aim.lits.iter().any(|lit| step.may_bring_about(*lit, aim.fresh))
        };
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
        let mark = mark_of(change.var);
        let against = |lit: &Lit| lit.var == change.var && change.to & lit.set == 0;
        let waited_for = || {
            let before = steps.iter().filter(|other| other.hangs_on & mark != 0);
            let aims = aims.iter().filter(|aim| aim.on & mark != 0);
            before.flat_map(|other| &other.before).any(against)
                || aims.flat_map(|aim| &aim.lits).any(against)
        };
        let thrown_back = steps.iter().filter(|other| other.acts_on & mark != 0).any(|other| {
            let mut sets = other.changes.iter().filter(|one| other.brings(one));
            sets.any(|one| one.var == change.var && one.to != change.to)
        });
        (step.deed == Deed::Look || !waited_for()) && !thrown_back
    })
}
