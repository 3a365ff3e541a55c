//! What each compiled step bears on and serves, worked out once.

use super::form::{Compiled, Lit, Rule, Step, mark_of, marks_of};
use crate::catalogue::Severity;
use crate::vehicle::Deed;

/// Marks which rules each step bears on, and which steps meet each aim.
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
    let steps = &compiled.steps;
    for aim in aims {
        let meets = |step: &Step| {
            step.acts_on & aim.on != 0
                && aim.lits.iter().any(|lit| step.may_bring_about(*lit, aim.fresh))
        };
        aim.steps =
            steps.iter().enumerate().filter(|(_, step)| meets(step)).map(|(n, _)| n).collect();
    }
}

/// Marks what speaks against each step: aims, and other steps.
pub(super) fn mark_disputes(compiled: &mut Compiled) {
    let aims = &compiled.aims;
    let steps = compiled.steps.clone();
    for step in &mut compiled.steps {
        step.unwanted = step.deed != Deed::Look
            && aims.iter().flat_map(|aim| &aim.lits).any(|lit| is_against(step, lit));
        let others = steps.iter().enumerate().filter(|(_, other)| other.number != step.number);
        let others = others.filter(|(_, other)| disputes(other, step));
        step.disputed_by = others.map(|(number, _)| number).collect();
    }
}

fn meets(var: usize, set: u8, rule: &Rule) -> bool {
    rule.lits.iter().any(|lit| lit.var == var && set & lit.set != 0)
}

/// Whether a step changes something to what a literal does not hold with.
fn is_against(step: &Step, lit: &Lit) -> bool {
    let mut own = step.changes.iter().filter(|change| !change.spoilt);
    own.any(|change| change.var == lit.var && change.to & lit.set == 0)
}

/// Whether a step waits for what another changes to be otherwise, or throws it back. A look changes
/// nothing that could be waited for.
fn disputes(step: &Step, other: &Step) -> bool {
    let waits = || other.deed != Deed::Look && step.before.iter().any(|lit| is_against(other, lit));
    let throws_back = || {
        step.acts_on & other.acts_on != 0
            && step.changes.iter().filter(|one| step.brings(one)).any(|one| {
                let mut own = other.changes.iter().filter(|change| !change.spoilt);
                own.any(|change| change.var == one.var && change.to != one.to)
            })
    };
    waits() || throws_back()
}
