//! From "each roof light" to this vehicle's two roof lights.

use std::collections::{BTreeMap, BTreeSet};

use super::{
    Action, Clause, Deed, Effect, Fitting, Gauge, Literal, PackValue, Settings, Variable, Vehicle, Walks,
    Zone,
};
use crate::catalogue::{self, Catalogue, Kind, Severity, kind::When};
use crate::error::{Error, Result};
use crate::pack::{self, Pack};

const MS_PER_MIN: i64 = 60_000;

/// A fitting on its way to being grounded: its number, its kind, and its line of the pack if any.
struct Part<'a> {
    number: usize,
    kind: &'a Kind,
    line: Option<&'a pack::Fitting>,
}

pub(super) fn vehicle(pack: &Pack, catalogue: &Catalogue) -> Result<Vehicle> {
    let mut vehicle = Vehicle {
        title: pack.title.get_ref().clone(),
        about: pack.about.clone(),
        invented: pack.invented,
        departure_lapse_ms: i64::from(*pack.departure_lapse_min.get_ref()) * MS_PER_MIN,
        zones: pack.zones.iter().map(zone).collect(),
        walks: Walks::new(pack),
        home: place(pack, pack.home_zone.get_ref())?,
        fittings: Vec::new(),
        variables: Vec::new(),
        clauses: Vec::new(),
        actions: Vec::new(),
        numbers: BTreeMap::new(),
    };
    let parts = parts(pack, catalogue)?;
    for part in &parts {
        add_variables(&mut vehicle, pack, part)?;
    }
    for part in &parts {
        add_actions(&mut vehicle, part)?;
    }
    let mut in_order: Vec<_> = parts.iter().collect();
    in_order.sort_by_key(|part| &part.kind.id);
    for part in in_order {
        add_clauses(&mut vehicle, part)?;
    }
    spoil(&mut vehicle, &parts)?;
    mark_hazards(&mut vehicle);
    Ok(vehicle)
}

fn zone(zone: &pack::Zone) -> Zone {
    Zone { id: zone.id.get_ref().clone(), title: zone.title.get_ref().clone() }
}

/// What the pack lists, then what is always there.
fn parts<'a>(pack: &'a Pack, catalogue: &'a Catalogue) -> Result<Vec<Part<'a>>> {
    let mut parts = Vec::new();
    for line in &pack.fittings {
        let id = line.kind.get_ref();
        let kind = catalogue.kinds.get(id);
        let kind = kind.ok_or_else(|| Error::NotFound { kind: "kind", id: id.clone() })?;
        parts.push(Part { number: parts.len(), kind, line: Some(line) });
    }
    for kind in catalogue.kinds.values().filter(|kind| kind.always_in.is_some()) {
        parts.push(Part { number: parts.len(), kind, line: None });
    }
    Ok(parts)
}

fn add_variables(vehicle: &mut Vehicle, pack: &Pack, part: &Part) -> Result<()> {
    let (kind, line) = (part.kind, part.line);
    let id = line.map_or(&kind.id, |line| line.id.get_ref()).clone();
    let home = line.map(|line| line.zone.get_ref()).or(kind.always_in.as_ref());
    let home = place(pack, home.map_or("", String::as_str))?;
    for variable in &kind.variables {
        let number = vehicle.variables.len();
        let all_names = &variable.settings;
        let lacking = line.and_then(|line| line.without.get(&variable.id));
        let has = |name: &String| lacking.is_none_or(|names| !names.get_ref().contains(name));
        let all = places(all_names, |name| has(name));
        let named = |name: &Option<String>| {
            places(all_names, |one| name.as_ref() == Some(one)).and(all)
        };
        let (assume, usual) = (named(&variable.assume), named(&variable.usual));
        let moved = line.and_then(|line| line.zones.get(&variable.id)).map(toml::Spanned::get_ref);
        let zone = match moved.or(variable.zone.as_ref()) {
            Some(zone) => place(pack, zone)?,
            None => home,
        };
        vehicle.numbers.insert(format!("{id}.{}", variable.id), number);
        vehicle.variables.push(Variable {
            id: format!("{id}.{}", variable.id),
            name: variable.id.clone(),
            fitting: part.number,
            settings: all_names.clone(),
            all,
            middle: named(&variable.middle),
            assume: if assume.is_empty() { all } else { assume },
            usual: if usual.is_empty() { all.first() } else { usual.first() },
            zone,
            lapse_ms: i64::from(variable.lapse_min) * MS_PER_MIN,
            given: variable.given,
            dont_care: variable.dont_care,
        });
    }
    let number = |name: &String| vehicle.numbers.get(&format!("{id}.{name}")).copied();
    let gauge = kind.gauge.as_ref().and_then(|gauge| {
        let asks = gauge.asks.iter().filter_map(number).collect();
        Some(Gauge { variable: number(&gauge.variable)?, of: gauge.of, asks })
    });
    vehicle.fittings.push(Fitting {
        id,
        kind: kind.id.clone(),
        title: line.map_or_else(String::new, |line| line.title.get_ref().clone()),
        note: line.map_or_else(String::new, |line| line.note.clone()),
        values: kind.values.iter().map(|value| pack_value(value, line)).collect(),
        gauge,
    });
    Ok(())
}

fn pack_value(
    value: &catalogue::Value,
    line: Option<&pack::Fitting>,
) -> (String, PackValue) {
    let given = line.and_then(|line| line.values.get(&value.id));
    let datum = given.map_or(&value.default, toml::Spanned::get_ref).clone();
    let value_of = PackValue { datum, defaulted: given.is_none(), source: value.source.clone() };
    (value.id.clone(), value_of)
}

fn add_actions(vehicle: &mut Vehicle, part: &Part) -> Result<()> {
    let fitting = fitting(vehicle, part.number)?.clone();
    let still = still(vehicle);
    for step in part.kind.moves.iter().filter(|step| applies(&fitting, &step.when)) {
        let mut effects = Vec::new();
        for (name, setting) in &step.set {
            let variable = own(vehicle, &fitting, name)?;
            let Ok(to) = vehicle.setting(variable, setting) else { break };
            effects.push(Effect { variable, to, spoilt: false });
        }
        if effects.len() < step.set.len() {
            continue; // This fitting lacks the setting.
        }
        let mut before = conjunction(vehicle, part, &step.before)?.unwrap_or_default();
        before.extend(still.filter(|_| !step.while_moving));
        let seconds = part.line.and_then(|line| line.seconds.get(&step.id));
        vehicle.actions.push(Action {
            id: format!("{}.{}", fitting.id, step.id),
            name: step.id.clone(),
            fitting: part.number,
            deed: Deed::Move,
            before,
            seconds: seconds.map_or(step.seconds, |seconds| *seconds.get_ref()),
            zone: zone_of(vehicle, &effects),
            effects,
            hazard: step.hazard,
            irreversible: step.irreversible,
        });
    }
    for variable in &part.kind.variables {
        let Some(seconds) = variable.look_s else { continue };
        let number = own(vehicle, &fitting, &variable.id)?;
        let known = variable_at(vehicle, number)?;
        let (id, effects) =
            (format!("{}.look", known.id), vec![Effect { variable: number, to: known.usual, spoilt: false }]);
        let mut before = conjunction(vehicle, part, &variable.look_before)?.unwrap_or_default();
        before.extend(still);
        vehicle.actions.push(Action {
            id,
            name: variable.id.clone(),
            fitting: part.number,
            deed: Deed::Look,
            before,
            seconds,
            zone: zone_of(vehicle, &effects),
            effects,
            hazard: false,
            irreversible: false,
        });
    }
    Ok(())
}

/// Nobody works on the vehicle while it moves, but for moves that say so.
fn still(vehicle: &Vehicle) -> Option<Literal> {
    let (_, engine) = vehicle.of_kind("engine").next()?;
    let variable = vehicle.variable_of(engine, "wheels")?;
    let still = vehicle.setting(variable, "still").ok()?;
    Some(Literal { variable, settings: Settings::one(still) })
}

fn zone_of(vehicle: &Vehicle, effects: &[Effect]) -> usize {
    let first = effects.first().and_then(|effect| vehicle.variables.get(effect.variable));
    first.map_or(vehicle.home, |variable| variable.zone)
}

fn add_clauses(vehicle: &mut Vehicle, part: &Part) -> Result<()> {
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

/// Adds to each action what it throws back ("walked round" after anything was moved or looked at).
fn spoil(vehicle: &mut Vehicle, parts: &[Part]) -> Result<()> {
    for part in parts {
        let fitting = fitting(vehicle, part.number)?.clone();
        for variable in &part.kind.variables {
            let Some(spoilt) = &variable.spoilt_to else { continue };
            let number = own(vehicle, &fitting, &variable.id)?;
            let to = vehicle.setting(number, spoilt)?;
            let kinds: Vec<_> = vehicle.fittings.iter().map(|one| one.kind.clone()).collect();
            for action in &mut vehicle.actions {
                let kind = kinds.get(action.fitting).map_or("", String::as_str);
                let path = format!("{kind}.{}", action.name);
                let is_move = action.deed == Deed::Move;
                let named = variable.spoilt_by.iter().any(|by| by == "*" || is_move && *by == path)
                    && !(is_move && variable.kept_by.contains(&path));
                let sets_it = action.effects.iter().any(|effect| effect.variable == number);
                if named && !sets_it {
                    action.effects.push(Effect { variable: number, to, spoilt: true });
                }
            }
        }
    }
    Ok(())
}

/// A look bears on a hazard where a danger clause hangs on what it shows.
fn mark_hazards(vehicle: &mut Vehicle) {
    let danger = vehicle.clauses.iter().filter(|clause| clause.severity == Severity::Danger);
    let hazards: BTreeSet<_> =
        danger.flat_map(|clause| &clause.literals).map(|literal| literal.variable).collect();
    for action in vehicle.actions.iter_mut().filter(|action| action.deed == Deed::Look) {
        action.hazard = action.effects.iter().any(|effect| hazards.contains(&effect.variable));
    }
}

fn conjunction(
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
            if literal.each.is_some() {
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

fn applies(fitting: &Fitting, conditions: &[When]) -> bool {
    conditions.iter().all(|when| {
        fitting.values.get(&when.value).is_some_and(|value| value.datum == when.is)
    })
}

fn places(names: &[String], wanted: impl Fn(&String) -> bool) -> Settings {
    let kept = (0_u8..).zip(names).filter(|(_, name)| wanted(name));
    kept.map(|(place, _)| place).collect()
}

fn place(pack: &Pack, zone: &str) -> Result<usize> {
    let found = pack.zones.iter().position(|known| known.id.get_ref() == zone);
    found.ok_or_else(|| Error::NotFound { kind: "zone", id: zone.to_owned() })
}

fn fitting(vehicle: &Vehicle, number: usize) -> Result<&Fitting> {
    vehicle.fittings.get(number).ok_or_else(|| Error::Internal(format!("no fitting {number}")))
}

fn variable_at(vehicle: &Vehicle, number: usize) -> Result<&Variable> {
    vehicle.variables.get(number).ok_or_else(|| Error::Internal(format!("no variable {number}")))
}

fn own(vehicle: &Vehicle, fitting: &Fitting, variable: &str) -> Result<usize> {
    let id = format!("{}.{variable}", fitting.id);
    vehicle.variable(&id)
}

/// The ground goals of "any of these": one for each way to choose its `each` fittings.
pub(super) fn any_of(
    vehicle: &Vehicle,
    literals: &[catalogue::Literal],
) -> Result<Vec<Vec<Literal>>> {
    let mut ways: Vec<Vec<Literal>> = vec![Vec::new()];
    for literal in literals {
        let found = instances(vehicle, None, literal)?;
        if literal.each.is_some() {
            let longer = |way: &Vec<Literal>| {
                found.iter().map(|one| union(way, one)).collect::<Vec<_>>()
            };
            ways = ways.iter().flat_map(longer).collect();
        } else {
            ways = ways.iter().map(|way| found.iter().fold(way.clone(), |w, l| union(&w, l))).collect();
        }
    }
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
