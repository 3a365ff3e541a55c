//! What a move of a kind must satisfy.

use super::{Check, check_literals, check_setting, check_when};
use crate::catalogue::Catalogue;
use crate::catalogue::kind::{Kind, Move};

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
    check_when(kind, &step.when)
}
