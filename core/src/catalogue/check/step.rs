//! What a move of a kind must satisfy.

use super::{Check, check_literals, check_setting, check_when};
use crate::catalogue::Catalogue;
use crate::catalogue::kind::{Kind, Literal, Move};

/// It changes something of its own fitting, and of others only what a link of the kind names.
pub(super) fn check(catalogue: &Catalogue, kind: &Kind, step: &Move) -> Check {
    if step.set.keys().all(|name| name.contains('.')) {
        return Err(format!("move `{}` sets nothing of its own", step.id));
    }
    for (name, setting) in &step.set {
        let found = kind
            .set_by(name)
            .and_then(|(owner, variable)| Some((catalogue.kinds.get(owner)?, variable)));
        let (owner, variable) =
            found.ok_or_else(|| format!("move `{}`: no link for `{name}`", step.id))?;
        check_setting(owner, variable, setting)?;
    }
    check_literals(catalogue, kind, &step.before)?;
    if step.before.iter().any(|literal| literal.each.is_some()) {
        return Err(format!("move `{}`: `before` takes no `each`", step.id));
    }
    check_attended(step)?;
    check_when(kind, &step.when)
}

/// What is attended ends by this move, and by nothing that one may have to see to elsewhere.
fn check_attended(step: &Move) -> Check {
    let ends = |literal: &Literal| {
        let to = literal.own.as_ref().and_then(|own| step.set.get(own));
        literal.held_for.is_some() && to.is_some_and(|to| !literal.settings.contains(to))
    };
    match step.before.as_slice() {
        [literal] if ends(literal) => Ok(()),
        _ if !step.attended => Ok(()),
        _ => Err(format!(
            "move `{}`: `attended` ends what its only condition says by `own` and `held_for`",
            step.id
        )),
    }
}
