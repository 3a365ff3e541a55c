//! Pack files made up at random for a catalogue, as text, so that the reader is tested too.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use stowfast_core::catalogue::{Catalogue, Datum, Kind, Value};

use crate::choices::Choices;

/// How much is fitted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Size {
    /// Fewest fittings beyond those that every vehicle has, partners not counted.
    pub least: usize,
    /// Most of them.
    pub most: usize,
    /// Whether the pack may give hands-on times of its own.
    pub own_seconds: bool,
}

struct Fitting<'a> {
    id: String,
    kind: &'a Kind,
}

/// A pack file.
#[must_use]
pub fn text(choices: &mut Choices, catalogue: &Catalogue, size: Size) -> String {
    let zones = zones(choices, catalogue);
    let fittings = fittings(choices, catalogue, size);
    let mut text = "stowfast_pack = 1\ntitle = \"Made up\"\ninvented = true\n".to_owned();
    let home = choices.one_of(&zones).map_or("", String::as_str);
    _ = writeln!(text, "home_zone = \"{home}\"");
    for zone in &zones {
        _ = writeln!(text, "[[zone]]\nid = \"{zone}\"\ntitle = \"Zone {zone}\"");
    }
    add_walks(choices, &mut text, &zones);
    for fitting in &fittings {
        add_fitting(choices, &mut text, (&zones, &fittings), fitting, size);
    }
    text
}

fn zones(choices: &mut Choices, catalogue: &Catalogue) -> Vec<String> {
    let mut zones: Vec<String> = Vec::new();
    for zone in catalogue.kinds.values().filter_map(|kind| kind.always_in.clone()) {
        if !zones.contains(&zone) {
            zones.push(zone);
        }
    }
    let more =
        choices.between(2_usize.saturating_sub(zones.len()), 5_usize.saturating_sub(zones.len()));
    for number in 0..more {
        let place = choices.between(0, zones.len());
        zones.insert(place, format!("z{number}"));
    }
    zones
}

/// Walks that join each zone to an earlier one, and a few more, some of them one way only.
fn add_walks(choices: &mut Choices, text: &mut String, zones: &[String]) {
    let mut add = |from: &str, to: &str, seconds: usize| {
        _ = writeln!(text, "[[walk]]\nfrom = \"{from}\"\nto = \"{to}\"\nseconds = {seconds}");
    };
    for (number, zone) in zones.iter().enumerate().skip(1) {
        if let Some(from) = zones.get(choices.below(number)) {
            add(from, zone, choices.between(1, 40));
            if choices.once_in(4) {
                add(zone, from, choices.between(1, 40));
            }
        }
    }
    for _ in 0..choices.below(3) {
        let (from, to) = (choices.one_of(zones).cloned(), choices.one_of(zones).cloned());
        if let (Some(from), Some(to)) = (from, to)
            && from != to
        {
            add(&from, &to, choices.between(1, 40));
        }
    }
}

fn fittings<'a>(choices: &mut Choices, catalogue: &'a Catalogue, size: Size) -> Vec<Fitting<'a>> {
    let listed: Vec<&Kind> = catalogue.kinds.values().filter(|k| k.always_in.is_none()).collect();
    let mut found: Vec<Fitting> = Vec::new();
    listed.iter().filter(|kind| kind.every_vehicle).for_each(|kind| fit(&mut found, kind));
    for _ in 0..choices.between(size.least, size.most) {
        let Some(kind) = choices.one_of(&listed) else { continue };
        fit(&mut found, kind);
        let partners: Vec<_> =
            kind.links.values().filter_map(|id| catalogue.kinds.get(id)).collect();
        for partner in partners {
            if !found.iter().any(|fitting| fitting.kind.id == partner.id) {
                fit(&mut found, partner);
            }
        }
    }
    found
}

/// Fits one more of a kind, unless there are as many as the kind allows, or three.
fn fit<'a>(found: &mut Vec<Fitting<'a>>, kind: &'a Kind) {
    let number = found.iter().filter(|fitting| fitting.kind.id == kind.id).count();
    if number < kind.at_most.unwrap_or(3).min(3) {
        let id = if number == 0 { kind.id.clone() } else { format!("{}_{number}", kind.id) };
        found.push(Fitting { id, kind });
    }
}

fn add_fitting(
    choices: &mut Choices,
    text: &mut String,
    (zones, fittings): (&[String], &[Fitting]),
    fitting: &Fitting,
    size: Size,
) {
    let zone = choices.one_of(zones).map_or("", String::as_str);
    let (id, kind) = (&fitting.id, fitting.kind);
    _ = writeln!(text, "[[fitting]]\nid = \"{id}\"\nkind = \"{}\"", kind.id);
    _ = writeln!(text, "title = \"{id}\"\nzone = \"{zone}\"");
    let mut tables: [(&str, Vec<String>); 5] =
        ["zones", "values", "without", "links", "seconds"].map(|name| (name, Vec::new()));
    let [at, values, without, links, seconds] = &mut tables;
    for variable in &kind.variables {
        if choices.once_in(4) {
            let zone = choices.one_of(zones).map_or("", String::as_str);
            at.1.push(format!("{} = \"{zone}\"", variable.id));
        }
        let manual = variable.settings.iter().any(|name| name == "auto") && choices.once_in(2);
        let lacking = choices.one_of(&variable.settings);
        if let Some(lacking) =
            lacking.filter(|_| variable.settings.len() > 2 && choices.once_in(12))
        {
            without.1.push(format!("{} = [\"{lacking}\"]", variable.id));
        } else if manual {
            without.1.push(format!("{} = [\"auto\"]", variable.id));
        }
    }
    let drawn = kind.values.iter().filter_map(|one| Some((one.id.clone(), value(choices, one)?)));
    let mut drawn: BTreeMap<String, String> = drawn.collect();
    for rule in &kind.value_rules {
        if drawn.get(&rule.when.value).is_some_and(|given| *given == rule.when.is.to_string()) {
            drawn.insert(rule.asks.value.clone(), rule.asks.is.to_string());
        }
    }
    values.1.extend(drawn.iter().map(|(name, given)| format!("{name} = {given}")));
    for (role, linked) in &kind.links {
        let fitted: Vec<_> = fittings.iter().filter(|other| other.kind.id == *linked).collect();
        if let Some(partner) = choices.one_of(&fitted).filter(|_| fitted.len() > 1) {
            links.1.push(format!("{role} = \"{}\"", partner.id));
        }
    }
    for step in kind.moves.iter().filter(|_| size.own_seconds) {
        if choices.once_in(6) {
            seconds.1.push(format!("{} = {}", step.id, choices.between(1, 60)));
        }
    }
    for (name, lines) in tables.iter().filter(|(_, lines)| !lines.is_empty()) {
        _ = writeln!(text, "{name} = {{ {} }}", lines.join(", "));
    }
}

/// A value that differs from the default, at the ends of what is allowed.
fn value(choices: &mut Choices, value: &Value) -> Option<String> {
    if !choices.once_in(3) {
        return None;
    }
    let end = if choices.once_in(2) { value.max } else { value.min };
    Some(match &value.default {
        Some(Datum::Flag(flag)) => format!("{}", !flag),
        Some(Datum::Number(number)) => format!("{}", end.unwrap_or(*number)),
        None => format!("{}", end?),
        Some(Datum::Word(_)) => format!("\"{}\"", choices.one_of(&value.one_of)?),
        Some(Datum::Numbers(_)) => format!("[{}]", end?),
    })
}
