//! What a setting that actions throw back to may be asked for.

use super::{Check, owner};
use crate::catalogue::Catalogue;
use crate::catalogue::kind::{Kind, Literal, Variable};

/// The setting that a variable is thrown back to says that something is still to do: nobody wants
/// it, and every rule about the variable holds while it is so.
pub(super) fn check(catalogue: &Catalogue, kind: &Kind, variable: &Variable) -> Check {
    let Some(undone) = &variable.spoilt_to else { return Ok(()) };
    let about = |literal: &&Literal, at: &Kind| {
        owner(catalogue, Some(at), literal)
            .is_ok_and(|(owner, name)| owner.id == kind.id && name == variable.id)
    };
    let kinds = || catalogue.kinds.values();
    let before = kinds().flat_map(|at| at.moves.iter().map(move |step| (at, &step.before)));
    let looks = kinds().flat_map(|at| at.variables.iter().map(move |one| (at, &one.look_before)));
    let wanted = before.chain(looks).any(|(at, literals)| {
        literals.iter().filter(|one| about(one, at)).any(|one| one.settings.contains(undone))
    });
    let rules = kinds().flat_map(|at| at.clauses.iter().map(move |clause| (at, clause)));
    let kept = rules.flat_map(|(at, clause)| {
        clause.never.iter().chain(&clause.nor).filter(move |one| about(one, at))
    });
    let kept = kept.into_iter().all(|one| one.settings.contains(undone));
    let targets = catalogue.targets.iter();
    let asked = targets.flat_map(|target| {
        target.goals.iter().chain(target.variants.iter().flat_map(|variant| &variant.goals))
    });
    let asked = asked.flat_map(|goal| &goal.any_of).any(|one| {
        owner(catalogue, None, one)
            .is_ok_and(|(owner, name)| owner.id == kind.id && name == variable.id)
            && one.settings.contains(undone)
    });
    if variable.dont_care && !wanted && kept && !asked {
        return Ok(());
    }
    Err(format!(
        "variable `{}`: nothing may want it to be `{undone}`, and it must be `dont_care`",
        variable.id
    ))
}
