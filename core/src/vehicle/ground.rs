//! From "each roof light" to this vehicle's two roof lights.

mod action;
mod age;
mod alert;
mod fault;
mod rule;
mod settling;

use std::collections::BTreeMap;

use super::{Drawn, Fitting, Gauge, Measures, PackValue, Settings, Variable, Vehicle, Walks, Zone};
use crate::catalogue::{self, Catalogue, Datum, Holds, Kind, Measured};
use crate::error::{Error, Result};
use crate::pack::{self, Pack};
use crate::reserve::whole;
pub(super) use rule::any_of;

const MS_PER_MIN: i64 = 60_000;
const MIN_PER_H: u32 = 60;
const MIN_PER_DAY: u32 = 1_440;
const PERMILLE_PER_PCT: f64 = 10.0;
/// The value that says what a tank holds. Unit: L.
const CAPACITY: &str = "capacity_l";

fn ms(minutes: u32) -> i64 {
    i64::from(minutes).saturating_mul(MS_PER_MIN)
}

/// A pack value as a time; the unit ends its name.
fn time_ms(fitting: &Fitting, limit: &str) -> Result<i64> {
    let minutes_each = match limit.rsplit('_').next() {
        Some("h") => MIN_PER_H,
        Some("days") => MIN_PER_DAY,
        _ => 1,
    };
    let told = fitting.number(limit).unwrap_or(0.0) * f64::from(minutes_each);
    let minutes = crate::reserve::whole(limit, told, 1, 0..=i64::from(u32::MAX))?;
    Ok(ms(u32::try_from(minutes).unwrap_or(u32::MAX)))
}

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
        technician: pack.technician.as_ref().map(|who| who.get_ref().clone()),
        departure_lapse_ms: ms(*pack.departure_lapse_min.get_ref()),
        part_wait_s: pack.part_wait_min.get_ref().saturating_mul(60),
        list_walk_s: *pack.list_walk_s.get_ref(),
        measures: Measures::of(pack),
        zones: pack.zones.iter().map(zone).collect(),
        walks: Walks::new(pack),
        home: place(pack, pack.home_zone.get_ref())?,
        fittings: Vec::new(),
        variables: Vec::new(),
        chains: Vec::new(),
        clauses: Vec::new(),
        actions: Vec::new(),
        settlings: Vec::new(),
        alerts: Vec::new(),
        faults: Vec::new(),
        local: catalogue.local.clone(),
        numbers: BTreeMap::new(),
    };
    let parts = parts(pack, catalogue)?;
    for part in &parts {
        add_variables(&mut vehicle, pack, part)?;
    }
    for part in &parts {
        add_gauge(&mut vehicle, &parts, part)?;
        rule::add_chains(&mut vehicle, part)?;
        add_absences(&mut vehicle, part)?;
        age::add_ages(&mut vehicle, part)?;
    }
    for part in &parts {
        action::add_moves(&mut vehicle, part)?;
        action::add_looks(&mut vehicle, part)?;
        settling::add(&mut vehicle, part)?;
    }
    let mut in_order: Vec<_> = parts.iter().collect();
    in_order.sort_by_key(|part| &part.kind.id);
    for part in in_order {
        rule::add_clauses(&mut vehicle, part)?;
    }
    action::spoil(&mut vehicle, &parts)?;
    age::start_anew(&mut vehicle);
    action::mark_hazards(&mut vehicle);
    age::add_waits(&mut vehicle);
    alert::add(&mut vehicle, &parts, &catalogue.alerts)?;
    fault::add(&mut vehicle, &parts, &catalogue.faults)?;
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
    let own = |said: &toml::Spanned<String>| said.get_ref().clone();
    let values = kind.values.iter().filter_map(|value| pack_value(value, line));
    let fitting = Fitting {
        kind: kind.id.clone(),
        one_person: kind.one_person,
        title: line.map_or_else(String::new, |line| line.title.get_ref().clone()),
        note: line.and_then(|line| line.note.as_ref()).map_or_else(String::new, own),
        photo: line.and_then(|line| line.photo.as_ref()).map(own),
        values: values.chain(held(vehicle, kind)).collect(),
        gauge: None,
        id,
    };
    for known in &kind.variables {
        let moved = line.and_then(|line| line.zones.get(&known.id)).map(toml::Spanned::get_ref);
        let zone = match moved.or(known.zone.as_ref()) {
            Some(zone) => place(pack, zone)?,
            None => home,
        };
        let id = format!("{}.{}", fitting.id, known.id);
        vehicle.numbers.insert(id.clone(), vehicle.variables.len());
        vehicle.variables.push(Variable { id, zone, ..variable(known, part, &fitting) });
    }
    vehicle.fittings.push(fitting);
    Ok(())
}

/// Says of a fitting's variables where there is nothing for them to be in.
fn add_absences(vehicle: &mut Vehicle, part: &Part) -> Result<()> {
    let known = fitting(vehicle, part.number)?.clone();
    for variable in part.kind.variables.iter().filter(|one| one.absent_to.is_some()) {
        let number = own(vehicle, &known, &variable.id)?;
        let found = rule::conjunction(vehicle, part, &variable.absent_where)?.unwrap_or_default();
        if let Some(one) = vehicle.variables.get_mut(number) {
            one.absent_where = found;
        }
    }
    Ok(())
}

/// Gives a fitting its gauge, once every variable that it may ask about has its number.
fn add_gauge(vehicle: &mut Vehicle, parts: &[Part], part: &Part) -> Result<()> {
    let known = fitting(vehicle, part.number)?;
    let number = |path: &String| {
        let own = format!("{}.{path}", known.id);
        vehicle.numbers.get(if path.contains('.') { path } else { &own }).copied()
    };
    let measured =
        |gauge: &&catalogue::Gauge| gauge.of != Measured::Tank || known.number(CAPACITY).is_some();
    let gauge = part.kind.gauge.as_ref().filter(measured).and_then(|gauge| {
        let asks = gauge.asks.iter().filter(|ask| rule::applies(known, &ask.when));
        let asks = asks.filter_map(|ask| number(&ask.variable)).collect();
        let variable = number(&gauge.variable)?;
        let end = vehicle.setting(variable, &gauge.ends_at).ok()?;
        let count = vehicle.variables.get(variable)?.settings.len();
        let fills = usize::from(end).saturating_mul(2).saturating_add(1) > count;
        let catalogue::Gauge { of, used_by, used_by_driving, .. } = *gauge;
        let drawn_by = drawn_by(vehicle, parts, part.kind);
        let driving_only = gauge.driving_only && drawn_by.is_empty();
        Some(Gauge {
            variable,
            of,
            end,
            fills,
            used_by,
            driving_only,
            used_by_driving,
            drawn_by,
            asks,
        })
    });
    if let Some(fitting) = vehicle.fittings.get_mut(part.number) {
        fitting.gauge = gauge;
    }
    Ok(())
}

/// What draws from the tank of a kind.
fn drawn_by(vehicle: &Vehicle, parts: &[Part], from: &Kind) -> Vec<Drawn> {
    let drawn = parts.iter().filter_map(|part| {
        let draws = part.kind.draws.as_ref().filter(|draws| draws.from == from.id)?;
        let known = fitting(vehicle, part.number).ok()?;
        let variable = vehicle.variable_of(known, &draws.variable)?;
        let permille = known.given(&draws.down_to).map(|pct| pct * PERMILLE_PER_PCT);
        Some(Drawn {
            down_to_permille: permille.and_then(|all| whole("down_to", all, 1, 0..=1_000).ok()),
            variable,
            below: vehicle.setting(variable, &draws.below).ok()?,
            above: vehicle.setting(variable, &draws.above).ok()?,
        })
    });
    drawn.collect()
}

/// A variable of a fitting, but for its id and zone.
fn variable(known: &catalogue::Variable, part: &Part, fitting: &Fitting) -> Variable {
    let names = &known.settings;
    let without = part.line.and_then(|line| line.without.get(&known.id));
    let lacks = |name: &String| {
        let said = known.lacks.iter().filter(|lack| lack.setting == *name);
        said.clone().any(|lack| rule::applies(fitting, &lack.when))
            || without.is_some_and(|without| without.get_ref().contains(name))
    };
    let all = places(names, |name| !lacks(name));
    let place_of = |name: &Option<String>| places(names, |one| name.as_ref() == Some(one)).and(all);
    let (assume, usual) = (place_of(&known.assume), place_of(&known.usual));
    Variable {
        id: String::new(),
        name: known.id.clone(),
        fitting: part.number,
        settings: names.clone(),
        all,
        middle: place_of(&known.middle),
        assume: if assume.is_empty() { all } else { assume },
        usual: if usual.is_empty() { all.first() } else { usual.first() },
        zone: 0,
        lapse_ms: ms(known.lapse_min),
        given: known.given,
        lasts: known.lasts,
        absent_to: place_of(&known.absent_to),
        absent_where: Vec::new(),
        dont_care: known.dont_care,
        gesture: known.gesture,
        age_of: None,
    }
}

/// A value of a fitting; `None` where the pack does not give it and there is no default.
fn pack_value(
    value: &catalogue::Value,
    line: Option<&pack::Fitting>,
) -> Option<(String, PackValue)> {
    let given = line.and_then(|line| line.values.get(&value.id)).map(toml::Spanned::get_ref);
    let datum = given.or(value.default.as_ref())?.clone();
    let value_of = PackValue { datum, defaulted: given.is_none(), source: value.source.clone() };
    Some((value.id.clone(), value_of))
}

/// What its tank holds, where a measure of the vehicle says it.
fn held(vehicle: &Vehicle, kind: &Kind) -> Option<(String, PackValue)> {
    let litres = match kind.gauge.as_ref()?.holds? {
        Holds::FuelTankL => vehicle.measures.fuel_tank_l?,
    };
    let (datum, source) = (Datum::Number(litres), "[measures] of the pack".to_owned());
    Some((CAPACITY.to_owned(), PackValue { datum, defaulted: false, source }))
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
