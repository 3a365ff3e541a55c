//! The rules of the catalogue, spelled out for what is fitted.

use std::collections::BTreeSet;

use super::{Part, age, fitting, own, places, variable_at};
use crate::catalogue::{self, value::When};
use crate::error::{Error, Result};
use crate::vehicle::{AgeOf, Chain, Clause, Fitting, Literal, Settings, Vehicle};

/// Adds the clauses of one fitting.
pub(super) fn add_clauses(vehicle: &mut Vehicle, part: &Part) -> Result<()> {
    let fitting = fitting(vehicle, part.number)?.clone();
    for clause in part.kind.clauses.iter().filter(|clause| applies(&fitting, &clause.when)) {
        for conjunction in [&clause.never, &clause.nor] {
            if conjunction.is_empty() {
                continue;
            }
            for literals in conjunctions(vehicle, Some(part), conjunction)? {
                if clause.above_w.is_some_and(|most_w| draw_w(vehicle, &literals) <= most_w) {
                    continue;
                }
                let id = format!("{}.{}", part.kind.id, clause.id);
                // Of two fittings of one kind, each finds the other: one rule for the pair.
                if vehicle.clauses.iter().any(|one| one.id == id && is_same(one, &literals)) {
                    continue;
                }
                vehicle.clauses.push(Clause {
                    id,
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

/// What the fittings that some literals are about draw from the mains together. Unit: W.
fn draw_w(vehicle: &Vehicle, literals: &[Literal]) -> f64 {
    let of = |one: &Literal| vehicle.variables.get(one.variable).map(|known| known.fitting);
    let fittings: BTreeSet<usize> = literals.iter().filter_map(of).collect();
    let drawn = fittings.iter().filter_map(|one| vehicle.fittings.get(*one)?.number("mains_w"));
    drawn.sum()
}

fn is_same(clause: &Clause, literals: &[Literal]) -> bool {
    let sorted = |literals: &[Literal]| {
        let mut sorted = literals.to_vec();
        sorted.sort_unstable();
        sorted
    };
    sorted(&clause.literals) == sorted(literals)
}

/// Adds the chains of one fitting.
pub(super) fn add_chains(vehicle: &mut Vehicle, part: &Part) -> Result<()> {
    for chain in &part.kind.chains {
        if let Some(literals) = conjunction(vehicle, part, &chain.holds)? {
            let id = format!("{}.{}", part.kind.id, chain.id);
            vehicle.chains.push(Chain { id, literals });
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

/// The ground conjunctions of a rule: one for each way to choose its `each` fittings. What always
/// holds says nothing and is left out; so is a conjunction that can never hold.
pub(super) fn conjunctions(
    vehicle: &Vehicle,
    part: Option<&Part>,
    literals: &[catalogue::Literal],
) -> Result<Vec<Vec<Literal>>> {
    let all = |one: &Literal| vehicle.variables.get(one.variable).map(|known| known.all);
    let of_one = |literals: Vec<Literal>| {
        let mut merged = merge(literals, Settings::and);
        let possible = merged.iter().all(|one| !one.settings.is_empty());
        merged.retain(|one| all(one) != Some(one.settings));
        possible.then_some(merged)
    };
    Ok(ways(vehicle, part, literals)?.into_iter().filter_map(of_one).collect())
}

/// The ground literals of a rule, once for each way to choose its `each` fittings.
fn ways(
    vehicle: &Vehicle,
    part: Option<&Part>,
    literals: &[catalogue::Literal],
) -> Result<Vec<Vec<Literal>>> {
    let mut ways: Vec<Vec<Literal>> = vec![Vec::new()];
    for literal in literals {
        let sets = instances(vehicle, part, literal)?;
        let longer =
            |way: &Vec<Literal>| sets.iter().map(|set| [way.as_slice(), set].concat()).collect();
        ways = ways.iter().flat_map::<Vec<_>, _>(longer).collect();
    }
    Ok(ways)
}

/// One literal for each variable.
fn merge(literals: Vec<Literal>, join: impl Fn(Settings, Settings) -> Settings) -> Vec<Literal> {
    let mut merged: Vec<Literal> = Vec::new();
    for literal in literals {
        match merged.iter_mut().find(|known| known.variable == literal.variable) {
            Some(known) => known.settings = join(known.settings, literal.settings),
            None => merged.push(literal),
        }
    }
    merged
}

/// What a literal of the catalogue stands for: sets of ground literals that belong together, one
/// for each way to choose a fitting.
fn instances(
    vehicle: &Vehicle,
    part: Option<&Part>,
    literal: &catalogue::Literal,
) -> Result<Vec<Vec<Literal>>> {
    if let Some(path) = &literal.chain {
        let named = vehicle.chains.iter().filter(|chain| chain.id == *path);
        return Ok(named.map(|chain| chain.literals.clone()).collect());
    }
    let (fittings, variable) = fittings(vehicle, part, literal)?;
    let asking = part.map(|part| fitting(vehicle, part.number)).transpose()?;
    let found = fittings.into_iter().map(|one| of_fitting(vehicle, asking, one, variable, literal));
    let found = found.collect::<Result<Vec<_>>>()?;
    let apart = literal.each.is_some() || literal.link.is_some();
    Ok(if apart { found.into_iter().map(|one| vec![one]).collect() } else { vec![found] })
}

/// The fittings that a literal of the catalogue speaks of, and which variable of theirs.
pub(super) fn fittings<'v, 'l>(
    vehicle: &'v Vehicle,
    part: Option<&Part>,
    literal: &'l catalogue::Literal,
) -> Result<(Vec<&'v Fitting>, &'l str)> {
    Ok(if let Some(variable) = &literal.own {
        let part = part.ok_or_else(|| Error::Internal("`own` outside a kind".to_owned()))?;
        (vec![fitting(vehicle, part.number)?], variable)
    } else if let Some((role, variable)) = literal.link.as_deref().and_then(|l| l.split_once('.')) {
        (part.and_then(|part| linked(vehicle, part, role)).into_iter().collect(), variable)
    } else {
        let path = literal.each.as_deref().or(literal.all.as_deref()).unwrap_or_default();
        let (kind, variable) = path.split_once('.').unwrap_or((path, ""));
        let others = vehicle.of_kind(kind).filter(|(number, _)| {
            literal.all.is_some() || part.is_none_or(|part| part.number != *number)
        });
        (others.map(|(_, fitting)| fitting).collect(), variable)
    })
}

/// A literal of the catalogue about a variable of one fitting, in a rule of `asking`.
fn of_fitting(
    vehicle: &Vehicle,
    asking: Option<&Fitting>,
    fitting: &Fitting,
    variable: &str,
    literal: &catalogue::Literal,
) -> Result<Literal> {
    let number = own(vehicle, fitting, variable)?;
    if let Some(limit) = literal.limit() {
        let asking = asking.unwrap_or(fitting);
        let age = vehicle.variable(&age::id_of(asking, fitting, variable, limit));
        // A fitting that lacks the setting has no age, and the literal never holds.
        let never = Literal { variable: number, settings: Settings::NONE };
        let place = if literal.held_for.is_some() { AgeOf::OLD } else { AgeOf::YOUNG };
        let settings = Settings::one(place);
        return Ok(age.map_or(never, |variable| Literal { variable, settings }));
    }
    let known = variable_at(vehicle, number)?;
    let settings = places(&known.settings, |name| literal.settings.contains(name));
    Ok(Literal { variable: number, settings: settings.and(known.all) })
}

/// The fitting that a role names, or the only one of its kind.
pub(super) fn linked<'a>(vehicle: &'a Vehicle, part: &Part, role: &str) -> Option<&'a Fitting> {
    let kind = part.kind.links.get(role)?;
    let named = part.line.and_then(|line| line.links.get(role));
    let mut fitted = vehicle.fittings.iter().filter(|fitting| fitting.kind == *kind);
    let may = part.kind.may_link.iter().any(|one| one == role);
    if named.is_none() && may && fitted.clone().count() > 1 {
        return None;
    }
    fitted.find(|fitting| named.is_none_or(|id| *id.get_ref() == fitting.id))
}

pub(super) fn applies(fitting: &Fitting, conditions: &[When]) -> bool {
    conditions
        .iter()
        .all(|when| fitting.values.get(&when.value).is_some_and(|value| value.datum == when.is))
}

/// The ground goals of "any of these": one for each way to choose its `each` fittings. Nothing is
/// asked of what is not fitted, be it a fitting or a setting.
pub(in crate::vehicle) fn any_of(
    vehicle: &Vehicle,
    literals: &[catalogue::Literal],
) -> Result<Vec<Vec<Literal>>> {
    let mut goals = Vec::new();
    for literals in ways(vehicle, None, literals)? {
        let mut goal = merge(literals, Settings::or);
        goal.retain(|one| !one.settings.is_empty());
        goals.extend((!goal.is_empty()).then_some(goal));
    }
    Ok(goals)
}
