//! What an alert must satisfy, and the words it needs.

use super::words::Need;
use super::{Check, check_literal, check_when, unique};
use crate::catalogue::kind::{Literal, Variable};
use crate::catalogue::{Alert, Catalogue, Kind, Meaning, fault};
use crate::error::Result;

/// Checks every alert.
pub(super) fn check(catalogue: &Catalogue) -> Result<()> {
    for alert in &catalogue.alerts {
        let file = format!("alerts/{}.toml", alert.kind);
        check_alert(catalogue, alert).map_err(|detail| fault(&file, &detail))?;
    }
    let ids = catalogue.alerts.iter().map(|alert| format!("{}.{}", alert.kind, alert.id));
    unique("alert", ids.collect::<Vec<_>>().iter()).map_err(|detail| fault("alerts", &detail))?;
    catalogue.kinds.values().try_for_each(|kind| {
        let file = format!("kinds/{}.toml", kind.id);
        kind.variables
            .iter()
            .try_for_each(|variable| check_shown(catalogue, kind, variable))
            .map_err(|detail| fault(&file, &detail))
    })
}

/// What a variable shows by itself is one of its settings, and an alert is told of it or follows
/// from it.
fn check_shown(catalogue: &Catalogue, kind: &Kind, variable: &Variable) -> Check {
    let path = format!("{}.{}", kind.id, variable.id);
    variable.shows.iter().try_for_each(|shown| {
        if !variable.settings.contains(shown) {
            return Err(format!("`{path}` has no setting `{shown}` to show"));
        }
        let tells = |alert: &Alert, literal: &Literal| {
            let own = alert.kind == kind.id && literal.own.as_ref() == Some(&variable.id);
            let other = [&literal.each, &literal.all].into_iter().flatten();
            (own || other.into_iter().any(|named| *named == path))
                && literal.settings.contains(shown)
        };
        let told = |alert: &Alert| alert.signs().any(|literal| tells(alert, literal));
        if catalogue.alerts.iter().any(told) {
            return Ok(());
        }
        Err(format!("`{path}` shows `{shown}` without an alert"))
    })
}

fn check_alert(catalogue: &Catalogue, alert: &Alert) -> Check {
    let kind = kind(catalogue, &alert.kind)?;
    check_when(kind, &alert.when)?;
    alert.literals().try_for_each(|literal| check_literal(catalogue, Some(kind), literal))?;
    if alert.literals().any(|literal| literal.limit().is_some()) {
        return Err(format!("alert `{}`: ages belong to rules", alert.id));
    }
    if alert.source.is_empty() {
        return Err(format!("alert `{}` needs a source", alert.id));
    }
    let told = alert.report.iter().chain(alert.meanings.iter().flat_map(|one| &one.finds));
    if told.into_iter().any(|literal| literal.settings.len() != 1) {
        return Err(format!("alert `{}`: a report says one setting", alert.id));
    }
    if alert.report.iter().any(|literal| literal.own.is_none()) {
        return Err(format!("alert `{}` reports a variable of its own fitting", alert.id));
    }
    alert.cards.iter().try_for_each(|other| self::kind(catalogue, other).map(|_| ()))?;
    unique("meaning", alert.meanings.iter().map(|meaning| &meaning.id))?;
    let last = alert.meanings.len().checked_sub(1);
    let bare = alert.meanings.iter().position(|meaning| meaning.so.is_none());
    if last.is_none() || bare != last {
        return Err(format!("alert `{}`: the last meaning alone hangs on nothing", alert.id));
    }
    alert.meanings.iter().try_for_each(|meaning| check_meaning(catalogue, meaning))
}

fn check_meaning(catalogue: &Catalogue, meaning: &Meaning) -> Check {
    check_links(catalogue, meaning.routine.as_ref(), &meaning.steps)
}

/// A routine and steps that lead out of something are there.
pub(super) fn check_links(
    catalogue: &Catalogue,
    routine: Option<&String>,
    steps: &[String],
) -> Check {
    if let Some(routine) = routine {
        let target = catalogue.target(routine).map_err(|error| error.to_string())?;
        let parts = routine.split_once('/').map(|(_, parts)| parts);
        if parts.is_some_and(|parts| target.only(parts).is_none()) {
            return Err(format!("no parts `{routine}`"));
        }
    }
    steps.iter().try_for_each(|path| {
        let (id, rest) = path.split_once('.').ok_or_else(|| format!("no step `{path}`"))?;
        let kind = kind(catalogue, id)?;
        let moved = kind.moves.iter().any(|step| step.id == rest);
        let looked = rest.strip_suffix(".look");
        let looks = kind.variables.iter().filter(|one| one.look_s.is_some());
        let seen = looks.into_iter().any(|one| looked == Some(one.id.as_str()));
        if moved || seen { Ok(()) } else { Err(format!("no step `{path}`")) }
    })
}

pub(super) fn kind<'a>(
    catalogue: &'a Catalogue,
    id: &str,
) -> std::result::Result<&'a Kind, String> {
    catalogue.kinds.get(id).ok_or_else(|| format!("no kind `{id}`"))
}

/// The keys of an alert's words. A meaning may have its own of what to stop and of the trip.
pub(super) fn keys(alert: &Alert, keys: &mut Vec<(String, Need)>) {
    let at = format!("kind.{}.{}", alert.kind, alert.words());
    let own = ["title", "sign", "stop", "trip", "help", "caution"];
    keys.extend(own.map(|rest| (format!("{at}.{rest}"), Need::Must)));
    keys.push((format!("{at}.words"), Need::May));
    for Meaning { id, .. } in &alert.meanings {
        keys.extend(["means", "do"].map(|rest| (format!("{at}.{rest}.{id}"), Need::Must)));
        let other = ["stop_when", "trip_when"];
        keys.extend(other.map(|rest| (format!("{at}.{rest}.{id}"), Need::May)));
    }
}
