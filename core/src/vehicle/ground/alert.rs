//! The alerts of the catalogue, spelled out for what is fitted.

use super::{Part, fitting, rule};
use crate::catalogue::{self, Condition};
use crate::error::Result;
use crate::vehicle::{Alert, Literal, Meaning, Vehicle};

/// Adds the alerts, in the catalogue's order.
pub(super) fn add(
    vehicle: &mut Vehicle,
    parts: &[Part],
    alerts: &[catalogue::Alert],
) -> Result<()> {
    for alert in alerts {
        let of_kind = parts.iter().filter(|part| part.kind.id == alert.kind);
        let mut fitted = Vec::new();
        for part in of_kind {
            if rule::applies(fitting(vehicle, part.number)?, &alert.when) {
                fitted.push(ground(vehicle, part, alert)?);
            }
        }
        fitted.truncate(if alert.once { 1 } else { usize::MAX });
        vehicle.alerts.extend(fitted);
    }
    Ok(())
}

fn ground(vehicle: &Vehicle, part: &Part, alert: &catalogue::Alert) -> Result<Alert> {
    let known = fitting(vehicle, part.number)?;
    let one = |literal: &catalogue::Literal| {
        let condition = Condition { only_if: vec![literal.clone()], any_of: Vec::new() };
        ways(vehicle, part, &condition)
    };
    let report = alert.report.iter().map(one).collect::<Result<Vec<_>>>()?.concat();
    let mut shows = report.clone();
    for condition in &alert.shows {
        shows.extend(ways(vehicle, part, condition)?);
    }
    let meaning = |known: &catalogue::Meaning| {
        Ok(Meaning {
            id: known.id.clone(),
            ways: match &known.so {
                Some(condition) => ways(vehicle, part, condition)?,
                None => vec![Vec::new()],
            },
            normal: known.normal,
            routine: known.routine.clone(),
            steps: known.steps.iter().flat_map(|path| steps(vehicle, part, path)).collect(),
            finds: known.finds.iter().map(one).collect::<Result<Vec<_>>>()?.concat().concat(),
        })
    };
    let owner = if alert.once { &alert.kind } else { &known.id };
    Ok(Alert {
        id: format!("{owner}.{}", alert.id),
        words: alert.words(),
        fitting: part.number,
        symbol: alert.symbol,
        seen: alert.seen,
        report: report.concat().first().copied(),
        shows,
        cards: cards(vehicle, part, alert.once, &alert.cards),
        source: alert.source.clone(),
        meanings: alert.meanings.iter().map(meaning).collect::<Result<_>>()?,
    })
}

/// The fittings whose cards help: its own, all of its kind where there is one page for them, then
/// those of other kinds.
pub(super) fn cards(vehicle: &Vehicle, part: &Part, once: bool, kinds: &[String]) -> Vec<usize> {
    let numbered = vehicle.fittings.iter().enumerate();
    let others = numbered.filter(|(_, one)| kinds.contains(&one.kind));
    let kin = once.then(|| vehicle.of_kind(&part.kind.id)).into_iter().flatten();
    let mut cards = vec![part.number];
    for (number, _) in kin.chain(others) {
        if !cards.contains(&number) {
            cards.push(number);
        }
    }
    cards
}

/// The ways in which a condition holds: for each of what any one will do, with all of the rest.
pub(super) fn ways(
    vehicle: &Vehicle,
    part: &Part,
    condition: &Condition,
) -> Result<Vec<Vec<Literal>>> {
    if condition.any_of.is_empty() {
        return rule::conjunctions(vehicle, Some(part), &condition.only_if);
    }
    let mut ways = Vec::new();
    for one in &condition.any_of {
        let all = [condition.only_if.as_slice(), std::slice::from_ref(one)].concat();
        ways.extend(rule::conjunctions(vehicle, Some(part), &all)?);
    }
    Ok(ways)
}

/// The actions that `kind.move` or `kind.variable.look` names, by number.
pub(super) fn steps(vehicle: &Vehicle, part: &Part, path: &str) -> Vec<usize> {
    let (kind, rest) = path.split_once('.').unwrap_or((path, ""));
    let own = kind == part.kind.id;
    let fittings = vehicle.of_kind(kind).filter(|(number, _)| !own || *number == part.number);
    let ids = fittings.map(|(_, fitting)| format!("{}.{rest}", fitting.id));
    ids.filter_map(|id| Some(vehicle.action(&id).ok()?.0)).collect()
}
