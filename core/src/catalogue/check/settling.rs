//! What a settling must satisfy: it names what there is, tells its time, and never hides a danger.

use super::{Check, check_literals, check_setting, check_when, unique};
use crate::catalogue::{Catalogue, Datum, Kind, Settling, Severity};

/// The units in which a settling may tell its time, as they end the name of a pack value.
const UNITS: [&str; 3] = ["_min", "_h", "_days"];

pub(super) fn check(catalogue: &Catalogue, kind: &Kind) -> Check {
    unique("settling", kind.settlings.iter().map(|one| &one.id))?;
    kind.settlings.iter().try_for_each(|one| {
        check_one(catalogue, kind, one).map_err(|why| format!("settling `{}`: {why}", one.id))
    })
}

fn check_one(catalogue: &Catalogue, kind: &Kind, one: &Settling) -> Check {
    if one.source.is_empty() || one.from.is_empty() || one.adds.is_empty() {
        return Err("needs `from`, `adds` and a source".to_owned());
    }
    let mut named = one.from.iter().chain(&one.adds);
    named.try_for_each(|setting| check_setting(kind, &one.variable, setting))?;
    check_literals(catalogue, kind, &one.during)?;
    check_when(kind, &one.when)?;
    for limit in [Some(&one.after), one.latest.as_ref()].into_iter().flatten() {
        let value = kind.values.iter().find(|value| value.id == *limit);
        let told = value.is_some_and(|value| {
            matches!(value.default, Some(Datum::Number(_)))
                && value.min.is_some_and(|min| min >= 0.0)
        });
        if !told || !UNITS.iter().any(|unit| limit.ends_with(unit)) {
            return Err(format!("`{limit}` is no pack value in min, h or days, from 0 up"));
        }
    }
    for literal in &one.during {
        if literal.chain.is_some() || settles(catalogue, kind, literal) {
            return Err("`while` takes no chain, and nothing that settles".to_owned());
        }
    }
    match one.latest {
        Some(_) if hangs_on_danger(catalogue, kind, &one.variable) => {
            Err("a danger clause hangs on it: only a look ends it".to_owned())
        }
        _ => Ok(()),
    }
}

/// Whether a literal hangs on something that settles itself: then what is believed would depend on
/// how often it was worked out. One that names every setting only asks whether it is fitted.
fn settles(catalogue: &Catalogue, kind: &Kind, literal: &crate::catalogue::Literal) -> bool {
    literal.about(Some(kind)).is_some_and(|(owner, variable)| {
        let owner = catalogue.kinds.get(owner);
        owner.is_some_and(|owner| {
            let mut known = owner.variables.iter().filter(|one| one.id == variable);
            let all = known.any(|one| one.settings.iter().all(|it| literal.settings.contains(it)));
            !all && owner.settlings.iter().any(|one| one.variable == variable)
        })
    })
}

fn hangs_on_danger(catalogue: &Catalogue, kind: &Kind, variable: &str) -> bool {
    let clauses = catalogue.kinds.values().flat_map(|at| at.clauses.iter().map(move |it| (at, it)));
    let mut danger = clauses.filter(|(_, clause)| clause.severity == Severity::Danger);
    danger.any(|(at, clause)| {
        let mut literals = clause.never.iter().chain(&clause.nor);
        // A link names its kind only here, so that an `own` and a `link` are found alike.
        literals.any(|one| one.about(Some(at)) == Some((&kind.id, variable)))
    })
}
