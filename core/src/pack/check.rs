//! What a pack must satisfy before a vehicle is made of it.

use std::collections::{BTreeMap, BTreeSet};

use toml::Spanned;

use super::read::Fault;
use super::{FITTINGS_MAX, Fitting, NO_KIND, NOTE_CHARS_MAX, Pack, WALK_S_MAX, ZONES_MAX, measure};
use crate::catalogue::value::When;
use crate::catalogue::{Catalogue, Datum, Kind, Literal, Severity, Value};
use crate::near::{did_you_mean, nearest};

pub(super) type Check = std::result::Result<(), Fault>;

/// The newest pack format that this program reads.
const VERSION: u32 = 1;
/// Longest title or name of a file. Unit: bytes.
const TITLE_MAX: usize = 200;
/// Longest departure, and longest wait within a part. Unit: min.
const LAPSE_MIN_MAX: u32 = 1_440;
/// Longest walk within one list. Unit: s.
const LIST_WALK_S_MAX: u32 = 60;

pub(super) fn pack(pack: &Pack, catalogue: &Catalogue) -> Check {
    if *pack.stowfast_pack.get_ref() != VERSION {
        let expected = format!("`stowfast_pack = {VERSION}`, the format that this program reads");
        return Err(Fault::at(&pack.stowfast_pack, expected));
    }
    title(&pack.title)?;
    pack.technician.iter().try_for_each(title)?;
    for minutes in [&pack.departure_lapse_min, &pack.part_wait_min] {
        if !(1..=LAPSE_MIN_MAX).contains(minutes.get_ref()) {
            return Err(Fault::at(minutes, format!("1 to {LAPSE_MIN_MAX} minutes")));
        }
    }
    if *pack.list_walk_s.get_ref() > LIST_WALK_S_MAX {
        return Err(Fault::at(&pack.list_walk_s, format!("0 to {LIST_WALK_S_MAX} seconds")));
    }
    measure::check(pack)?;
    zones(pack)?;
    walks(pack)?;
    let mut seen = BTreeMap::new();
    if pack.fittings.len() > FITTINGS_MAX {
        return Err(Fault::nowhere(format!("at most {FITTINGS_MAX} fittings")));
    }
    for fitting in &pack.fittings {
        id(&fitting.id, &mut seen, "fitting")?;
        if catalogue.kinds.get(fitting.id.get_ref()).is_some_and(|kind| kind.always_in.is_some()) {
            let expected = format!("another id: `{}` is always there", fitting.id.get_ref());
            return Err(Fault::at(&fitting.id, expected));
        }
        title(&fitting.title)?;
        fitting.note.iter().try_for_each(note)?;
        fitting.photo.iter().try_for_each(photo)?;
        check_fitting(pack, catalogue, fitting)?;
    }
    titles(&pack.fittings)?;
    counts(pack, catalogue)
}

/// No two fittings are called the same: in a list nobody could tell which is meant.
fn titles(fittings: &[Fitting]) -> Check {
    let mut seen = BTreeMap::new();
    for fitting in fittings {
        let title = fitting.title.get_ref().trim();
        if let Some(other) = seen.insert(title.to_lowercase(), fitting) {
            let (id, known) = (fitting.id.get_ref(), other.id.get_ref());
            let expected =
                format!("another title: `{known}` and `{id}` are both called \"{title}\"");
            let other = Some(other.title.span().start);
            return Err(Fault { other, ..Fault::at(&fitting.title, expected) });
        }
    }
    Ok(())
}

fn zones(pack: &Pack) -> Check {
    if pack.zones.is_empty() || pack.zones.len() > ZONES_MAX {
        return Err(Fault::nowhere(format!("1 to {ZONES_MAX} zones")));
    }
    let mut seen = BTreeMap::new();
    for zone in &pack.zones {
        id(&zone.id, &mut seen, "zone")?;
        title(&zone.title)?;
    }
    known_zone(pack, &pack.home_zone)
}

/// Every zone can be walked to, in a time that makes sense.
fn walks(pack: &Pack) -> Check {
    let mut reached = BTreeSet::from([pack.home_zone.get_ref().as_str()]);
    for walk in &pack.walks {
        known_zone(pack, &walk.from)?;
        known_zone(pack, &walk.to)?;
        if !(1..=WALK_S_MAX).contains(walk.seconds.get_ref()) {
            return Err(Fault::at(&walk.seconds, format!("1 to {WALK_S_MAX} seconds")));
        }
    }
    for _ in &pack.zones {
        for walk in &pack.walks {
            let (from, to) = (walk.from.get_ref().as_str(), walk.to.get_ref().as_str());
            if reached.contains(from) || reached.contains(to) {
                reached.extend([from, to]);
            }
        }
    }
    match pack.zones.iter().find(|zone| !reached.contains(zone.id.get_ref().as_str())) {
        Some(zone) => Err(Fault::at(
            &zone.id,
            format!("a `[[walk]]` that reaches zone `{}`", zone.id.get_ref()),
        )),
        None => Ok(()),
    }
}

/// Every kind that a pack may name.
pub fn fitted_kinds(catalogue: &Catalogue) -> impl Iterator<Item = &String> {
    catalogue.kinds.values().filter(|kind| kind.always_in.is_none()).map(|kind| &kind.id)
}

fn check_fitting(pack: &Pack, catalogue: &Catalogue, fitting: &Fitting) -> Check {
    let is_named = |id: &&String| *id == fitting.kind.get_ref();
    let kind = fitted_kinds(catalogue).find(is_named).and_then(|id| catalogue.kinds.get(id));
    let Some(kind) = kind else {
        let named = fitting.kind.get_ref();
        let meant = did_you_mean(&nearest(named, fitted_kinds(catalogue).cloned()));
        return Err(Fault::at(&fitting.kind, format!("{NO_KIND}, not `{named}`.{meant}")));
    };
    known_zone(pack, &fitting.zone)?;
    for (variable, zone) in &fitting.zones {
        known_variable(kind, variable, zone)?;
        known_zone(pack, zone)?;
    }
    for (name, datum) in &fitting.values {
        value(kind, name, datum)?;
    }
    value_rules(kind, fitting)?;
    for (variable, settings) in &fitting.without {
        known_variable(kind, variable, settings)?;
        without(catalogue, kind, variable, settings)?;
    }
    for (name, seconds) in &fitting.seconds {
        let known = kind.moves.iter().map(|step| &step.id);
        if !known.clone().any(|step| step == name) {
            return Err(Fault::at(seconds, one_of("move", known)));
        }
        if !(1..=WALK_S_MAX).contains(seconds.get_ref()) {
            return Err(Fault::at(seconds, format!("1 to {WALK_S_MAX} seconds")));
        }
    }
    links(pack, kind, fitting)
}

fn links(pack: &Pack, kind: &Kind, fitting: &Fitting) -> Check {
    for (role, target) in &fitting.links {
        let Some(wanted) = kind.links.get(role) else {
            return Err(Fault::at(target, one_of("link", kind.links.keys())));
        };
        let fits = |other: &&Fitting| other.kind.get_ref() == wanted;
        let mut found = pack.fittings.iter().filter(fits);
        if !found.any(|other| other.id.get_ref() == target.get_ref()) {
            return Err(Fault::at(target, format!("the id of a fitting of kind `{wanted}`")));
        }
    }
    for (role, wanted) in &kind.links {
        let of_kind = pack.fittings.iter().filter(|other| other.kind.get_ref() == wanted).count();
        if !fitting.links.contains_key(role) && of_kind > 1 && !kind.may_link.contains(role) {
            let expected = format!("`links.{role}`: which `{wanted}` it belongs to");
            return Err(Fault::at(&fitting.id, expected));
        }
    }
    Ok(())
}

/// A fitting may lack settings, but none that a rule or a routine cannot do without.
fn without(
    catalogue: &Catalogue,
    kind: &Kind,
    variable: &str,
    settings: &Spanned<Vec<String>>,
) -> Check {
    let Some(known) = kind.variables.iter().find(|known| known.id == variable) else {
        return Ok(());
    };
    if let Some(odd) = settings.get_ref().iter().find(|one| !known.settings.contains(one)) {
        let expected = format!("{}, not `{odd}`", one_of("setting", known.settings.iter()));
        return Err(Fault::at(settings, expected));
    }
    let lacking = |one: &String| {
        settings.get_ref().contains(one) || known.lacks.iter().any(|lack| lack.setting == *one)
    };
    let left: Vec<_> = known.settings.iter().filter(|one| !lacking(one)).collect();
    if left.is_empty() {
        return Err(Fault::at(settings, "at least one setting left"));
    }
    if let Some(undone) = known.spoilt_to.as_ref().filter(|one| settings.get_ref().contains(one)) {
        let expected = format!("`{undone}` left: other moves throw it back to that");
        return Err(Fault::at(settings, expected));
    }
    let expected = |rule| format!("a setting left that keeps the rule `{rule}`");
    let unkept = unkept(catalogue, kind, variable, &left);
    unkept.map_or(Ok(()), |rule| Err(Fault::at(settings, expected(rule))))
}

/// The first rule of danger or damage about a variable that none of its settings keeps: a roof
/// light that cannot be shut.
fn unkept(
    catalogue: &Catalogue,
    kind: &Kind,
    variable: &str,
    settings: &[&String],
) -> Option<String> {
    // The kind's own rules say it best.
    let kinds = std::iter::once(kind).chain(catalogue.kinds.values());
    let rules = kinds.flat_map(|at| at.clauses.iter().map(move |rule| (at, rule)));
    let breaks = |at: &Kind, literal: &Literal| {
        literal.about(Some(at)) == Some((&kind.id, variable))
            && literal.not_yet_for.is_none()
            && settings.iter().all(|one| literal.settings.contains(one))
    };
    let mut unkept = rules.filter(|(at, rule)| {
        rule.severity != Severity::Nuisance
            && rule.never.iter().chain(&rule.nor).any(|literal| breaks(at, literal))
    });
    unkept.next().map(|(at, rule)| format!("{}.{}", at.id, rule.id))
}

fn value(kind: &Kind, name: &str, datum: &Spanned<Datum>) -> Check {
    let Some(known) = kind.values.iter().find(|value| value.id == name) else {
        let listed = kind.values.iter().map(|value| &value.id);
        return Err(Fault::at(datum, format!("{}, not `{name}`", one_of("value", listed))));
    };
    if known.takes(datum.get_ref()) { Ok(()) } else { Err(Fault::at(datum, form_of(known))) }
}

/// What one value asks of another, defaults included.
fn value_rules(kind: &Kind, fitting: &Fitting) -> Check {
    let given = |when: &When| fitting.values.get(&when.value);
    let is_so = |when: &When| {
        let default = kind.values.iter().find(|value| value.id == when.value);
        let default = default.and_then(|value| value.default.as_ref());
        given(when).map(Spanned::get_ref).or(default) == Some(&when.is)
    };
    let broken = kind.value_rules.iter().find(|rule| is_so(&rule.when) && !is_so(&rule.asks));
    broken.map_or(Ok(()), |rule| {
        let expected = format!("`{}`, which `{}` asks for", rule.asks, rule.when);
        let at = given(&rule.asks).or(given(&rule.when));
        let at = at.map_or(fitting.id.span(), Spanned::span).start;
        Err(Fault { at: Some(at), ..Fault::nowhere(expected) })
    })
}

/// How a pack value is written, in words that follow "expected".
fn form_of(value: &Value) -> String {
    let range = match (value.min, value.max) {
        (Some(min), Some(max)) => format!(" from {min} to {max}"),
        (Some(min), None) => format!(" of at least {min}"),
        (None, Some(max)) => format!(" of at most {max}"),
        (None, None) => String::new(),
    };
    match &value.default {
        Some(Datum::Flag(_)) => format!("`{}` as true or false", value.id),
        Some(Datum::Number(_)) | None => format!("`{}` as a number{range}", value.id),
        Some(Datum::Numbers(_)) => {
            let count = value.count.map_or_else(String::new, |count| format!("{count} "));
            format!("`{}` as {count}rising numbers{range}, like [20, 50]", value.id)
        }
        Some(Datum::Word(_)) => one_of(&value.id, value.one_of.iter()),
    }
}

/// What every vehicle has is there, once where only one makes sense, and what is always there has
/// its zone.
fn counts(pack: &Pack, catalogue: &Catalogue) -> Check {
    for kind in catalogue.kinds.values() {
        let mut fitted = pack.fittings.iter().filter(|one| *one.kind.get_ref() == kind.id);
        if kind.every_vehicle && fitted.clone().next().is_none() {
            let expected = format!("a fitting of kind `{}`: every vehicle has one", kind.id);
            return Err(Fault::nowhere(expected));
        }
        if let Some(extra) = kind.at_most.and_then(|most| fitted.nth(most)) {
            let most = kind.at_most.unwrap_or_default();
            let expected = format!("at most {most} of kind `{}`", kind.id);
            return Err(Fault::at(&extra.kind, expected));
        }
        if let Some(zone) = &kind.always_in
            && !pack.zones.iter().any(|known| known.id.get_ref() == zone)
        {
            let expected = format!("a zone `{zone}`, where the {} is", kind.id);
            return Err(Fault::nowhere(expected));
        }
    }
    Ok(())
}

fn known_zone(pack: &Pack, zone: &Spanned<String>) -> Check {
    if pack.zones.iter().any(|known| known.id.get_ref() == zone.get_ref()) {
        return Ok(());
    }
    Err(Fault::at(zone, one_of("zone", pack.zones.iter().map(|known| known.id.get_ref()))))
}

fn known_variable<T>(kind: &Kind, variable: &str, at: &Spanned<T>) -> Check {
    if kind.variables.iter().any(|known| known.id == variable) {
        return Ok(());
    }
    Err(Fault::at(at, one_of("variable", kind.variables.iter().map(|known| &known.id))))
}

fn id(id: &Spanned<String>, seen: &mut BTreeMap<String, usize>, what: &str) -> Check {
    let text = id.get_ref();
    let plain =
        |letter: char| letter.is_ascii_lowercase() || letter.is_ascii_digit() || letter == '_';
    if text.is_empty() || text.len() > TITLE_MAX || !text.chars().all(plain) {
        return Err(Fault::at(id, "an id of small letters, digits and `_`"));
    }
    if let Some(other) = seen.insert(text.clone(), id.span().start) {
        let expected = format!("an id that no other {what} has, not `{text}` again");
        return Err(Fault { other: Some(other), ..Fault::at(id, expected) });
    }
    Ok(())
}

pub(super) fn title(title: &Spanned<String>) -> Check {
    let text = title.get_ref();
    if text.trim().is_empty() || text.len() > TITLE_MAX || text.chars().any(char::is_control) {
        return Err(Fault::at(title, format!("a title of 1 to {TITLE_MAX} bytes on one line")));
    }
    Ok(())
}

fn note(note: &Spanned<String>) -> Check {
    let text = note.get_ref();
    if text.chars().count() > NOTE_CHARS_MAX {
        return Err(Fault::at(note, format!("a note of at most {NOTE_CHARS_MAX} characters")));
    }
    if text.chars().any(|letter| letter.is_control() && !"\r\n\t".contains(letter)) {
        return Err(Fault::at(note, "a note without control characters".to_owned()));
    }
    Ok(())
}

/// A name that leads nowhere but below the folder of the pack.
fn photo(photo: &Spanned<String>) -> Check {
    let name = photo.get_ref();
    let odd = |letter: char| letter.is_control() || "\\:".contains(letter);
    let leads_out = |part: &str| part.is_empty() || part == "." || part == "..";
    if name.len() > TITLE_MAX || name.chars().any(odd) || name.split('/').any(leads_out) {
        let expected = format!("a file beside the pack, of at most {TITLE_MAX} bytes");
        return Err(Fault::at(photo, expected));
    }
    Ok(())
}

pub(super) fn one_of<'a>(what: &str, known: impl Iterator<Item = &'a String>) -> String {
    let listed: Vec<_> = known.map(|one| format!("`{one}`")).collect();
    if listed.is_empty() {
        return format!("no {what} here: this kind has none");
    }
    format!("a {what} of {}", listed.join(", "))
}
