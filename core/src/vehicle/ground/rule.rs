//! The rules of the catalogue, spelled out for what is fitted.

use super::{Part, age, fitting, own, places, variable_at};
use crate::catalogue::{self, kind::When};
use crate::error::{Error, Result};
use crate::vehicle::{AgeOf, Clause, Fitting, Literal, Settings, Vehicle};

/// Adds the clauses of one fitting.
pub(super) fn add_clauses(vehicle: &mut Vehicle, part: &Part) -> Result<()> {
    let fitting = fitting(vehicle, part.number)?.clone();
    for clause in part.kind.clauses.iter().filter(|clause| applies(&fitting, &clause.when)) {
        for conjunction in [&clause.never, &clause.nor] {
            if conjunction.is_empty() {
                continue;
            }
            for literals in conjunctions(vehicle, Some(part), conjunction)? {
                vehicle.clauses.push(Clause {
                    id: format!("{}.{}", part.kind.id, clause.id),
                    fitting: part.number,
                    severity: clause.severity,
                    literals,
                    source: clause.source.clone(),
                });
            }
        }
    }
    Ok(())
}

/// The one conjunction of literals without `each`; `None` where it can never hold.
pub(super) fn conjunction(
    vehicle: &Vehicle,
    part: &Part,
    literals: &[catalogue::Literal],
) -> Result<Option<Vec<Literal>>> {
    Ok(conjunctions(vehicle, Some(part), literals)?.into_iter().next())
}

/// The ground conjunctions of a rule: one for each way to choose its `each` fittings. Literals of
/// one variable become one; a conjunction that can never hold is left out.
fn conjunctions(
    vehicle: &Vehicle,
    part: Option<&Part>,
    literals: &[catalogue::Literal],
) -> Result<Vec<Vec<Literal>>> {
    let mut ways: Vec<Vec<Literal>> = vec![Vec::new()];
    for literal in literals {
        let found = instances(vehicle, part, literal)?;
        let mut longer = Vec::new();
        for way in &ways {
            if literal.each.is_some() || literal.link.is_some() {
                longer.extend(found.iter().map(|one| [way.as_slice(), &[*one]].concat()));
            } else {
                longer.push([way.as_slice(), &found].concat());
            }
        }
        ways = longer;
    }
    Ok(ways.into_iter().filter_map(merge).collect())
}

fn merge(literals: Vec<Literal>) -> Option<Vec<Literal>> {
    let mut merged: Vec<Literal> = Vec::new();
    for literal in literals {
        match merged.iter_mut().find(|known| known.variable == literal.variable) {
            Some(known) => known.settings = known.settings.and(literal.settings),
            None => merged.push(literal),
        }
    }
    merged.iter().all(|literal| !literal.settings.is_empty()).then_some(merged)
}

/// The ground literals that a literal of the catalogue stands for.
fn instances(
    vehicle: &Vehicle,
    part: Option<&Part>,
    literal: &catalogue::Literal,
) -> Result<Vec<Literal>> {
    let (fittings, variable): (Vec<&Fitting>, &str) = if let Some(variable) = &literal.own {
        let part = part.ok_or_else(|| Error::Internal("`own` outside a kind".to_owned()))?;
        (vec![fitting(vehicle, part.number)?], variable)
    } else if let Some((role, variable)) = literal.link.as_deref().and_then(|l| l.split_once('.')) {
        (part.and_then(|part| linked(vehicle, part, role)).into_iter().collect(), variable)
    } else {
        let path = literal.each.as_deref().or(literal.all.as_deref()).unwrap_or_default();
        let (kind, variable) = path.split_once('.').unwrap_or((path, ""));
        (vehicle.of_kind(kind).map(|(_, fitting)| fitting).collect(), variable)
    };
    fittings
        .into_iter()
        .map(|fitting| {
            if let Some(limit) = &literal.not_yet_for {
                let age = vehicle.variable(&age::id_of(fitting, variable, limit));
                let settings = Settings::one(AgeOf::YOUNG);
                // A fitting that lacks the setting has no age, and the literal never holds.
                return Ok(age.map_or(
                    Literal {
                        variable: own(vehicle, fitting, variable)?,
                        settings: Settings::NONE,
                    },
                    |variable| Literal { variable, settings },
                ));
            }
            let variable = own(vehicle, fitting, variable)?;
            let known = variable_at(vehicle, variable)?;
            let settings = places(&known.settings, |name| literal.settings.contains(name));
            Ok(Literal { variable, settings: settings.and(known.all) })
        })
        .collect()
}

/// The fitting that a role names, or the only one of its kind.
fn linked<'a>(vehicle: &'a Vehicle, part: &Part, role: &str) -> Option<&'a Fitting> {
    let kind = part.kind.links.get(role)?;
    let named = part.line.and_then(|line| line.links.get(role));
    vehicle
        .fittings
        .iter()
        .filter(|fitting| fitting.kind == *kind)
        .find(|fitting| named.is_none_or(|id| *id.get_ref() == fitting.id))
}

pub(super) fn applies(fitting: &Fitting, conditions: &[When]) -> bool {
    conditions
        .iter()
        .all(|when| fitting.values.get(&when.value).is_some_and(|value| value.datum == when.is))
}

/// The ground goals of "any of these": one for each way to choose its `each` fittings.
pub(in crate::vehicle) fn any_of(
    vehicle: &Vehicle,
    literals: &[catalogue::Literal],
) -> Result<Vec<Vec<Literal>>> {
    let mut ways: Vec<Vec<Literal>> = vec![Vec::new()];
    for literal in literals {
        let found = instances(vehicle, None, literal)?;
        if literal.each.is_some() {
            let longer =
                |way: &Vec<Literal>| found.iter().map(|one| union(way, one)).collect::<Vec<_>>();
            ways = ways.iter().flat_map(longer).collect();
        } else {
            ways = ways
                .iter()
                .map(|way| found.iter().fold(way.clone(), |w, l| union(&w, l)))
                .collect();
        }
    }
    // Nothing is asked of what is not fitted.
    ways.retain(|way| !way.is_empty());
    Ok(ways)
}

fn union(way: &[Literal], one: &Literal) -> Vec<Literal> {
    let mut way = way.to_vec();
    match way.iter_mut().find(|known| known.variable == one.variable) {
        Some(known) => known.settings = known.settings.or(one.settings),
        None => way.push(*one),
    }
    way
}
