//! Whether a file tells of a database that could be; whatever it says is checked before anything is
//! written.

use std::collections::{BTreeMap, BTreeSet};

use super::file::{File, Line, Shot, Van};
use super::{Pack, base64};
use crate::catalogue::{Target, back};
use crate::clock::{Monotonic, Stamp};
use crate::engine::vehicles::read;
use crate::pack::{self, FITTINGS_MAX};
use crate::photo::{self, PHOTOS_MAX, Photo};
use crate::state::{Act, Entry, Fact, Figure, Finding, NewEntry, Reading};
use crate::store::{Everything, Kept, VehicleRow, act_of};

/// Most vehicles in a file: more than a hirer's whole fleet. Common practice, no source.
pub(super) const VEHICLES_MAX: usize = 100;
/// Most entries in the log of one vehicle: twice what fills a file at their usual size (274 bytes).
/// Common practice, no source.
pub(super) const ENTRIES_MAX: usize = 500_000;
/// Most facts in one entry: ten of each of the most fittings that a pack may have.
pub(super) const FACTS_MAX: usize = 10 * FITTINGS_MAX;
/// Most settings in one fact: ten times what a variable has. Common practice, no source.
pub(super) const SETTINGS_MAX: usize = 64;
/// Highest number of an entry: the highest that every reader of JSON keeps whole (RFC 8259,
/// section 6), far below where SQLite runs out of numbers.
pub(super) const SEQ_MAX: i64 = (1 << 53) - 1;
/// Longest title or name: more than twice what a pack's titles and ids may have. Unit: bytes.
const NAME_MAX: usize = 500;

type Check<T> = Result<T, String>;

/// All that a file holds, and what each pack in it makes, by the title of its vehicle; or what was
/// expected, and in which entry of which vehicle.
pub(super) fn everything(file: &File) -> Check<(Everything, BTreeMap<String, Pack>)> {
    let mut settings = BTreeMap::new();
    for setting in &file.settings {
        let rises = settings.last_key_value().is_none_or(|(last, _)| *last < setting.key);
        must(rises && !setting.key.is_empty(), || {
            format!("each setting once, by rising key, not {:?}", short(&setting.key))
        })?;
        settings.insert(setting.key.clone(), setting.value.clone());
    }
    must(file.vehicles.len() <= VEHICLES_MAX, || format!("at most {VEHICLES_MAX} vehicles"))?;
    let current = file.vehicles.iter().filter(|van| van.current).count();
    must(current == 1 || file.vehicles.is_empty(), || {
        format!("one vehicle that is `current`, not {current}")
    })?;
    let (mut packs, mut numbers, mut vehicles) = (BTreeMap::new(), BTreeSet::new(), Vec::new());
    for (van, id) in file.vehicles.iter().zip(1..) {
        let of = |expected| format!("{expected}, for vehicle {id}");
        let (row, pack) = row(van, id).map_err(of)?;
        let title = &van.title;
        let is_first = packs.insert(title.clone(), pack).is_none();
        must(is_first, || format!("one vehicle only called \"{title}\""))?;
        let log = log(&van.log, &mut numbers).map_err(|said| format!("{said} of \"{title}\""))?;
        let photos = photos(&van.photos).map_err(|said| format!("{said} of \"{title}\""))?;
        vehicles.push(Kept { row, log, photos });
    }
    Ok((Everything { settings, vehicles }, packs))
}

fn row(van: &Van, id: i64) -> Check<(VehicleRow, Pack)> {
    must(is_name(&van.title), || format!("a title of 1 to {NAME_MAX} bytes on one line"))?;
    for pack in [Some(&van.pack), van.good_pack.as_ref()].into_iter().flatten() {
        must(pack.len() <= pack::BYTES_MAX, || {
            format!("a pack of at most {} bytes", pack::BYTES_MAX)
        })?;
    }
    let pack = read(&van.title, &van.pack);
    if let Ok(fitted) = &pack {
        let title = &fitted.title;
        must(*title == van.title, || format!("the title that its pack has, \"{title}\""))?;
    }
    let row = VehicleRow {
        id,
        title: van.title.clone(),
        pack_toml: van.pack.clone(),
        good_pack_toml: van.good_pack.clone(),
        added_utc_ms: van.added_utc_ms,
        current: van.current,
    };
    Ok((row, pack))
}

/// A log; `numbers` are those of all entries so far, of any vehicle.
fn log(lines: &[Line], numbers: &mut BTreeSet<i64>) -> Check<Vec<Entry>> {
    must(lines.len() <= ENTRIES_MAX, || format!("at most {ENTRIES_MAX} entries in the log"))?;
    let mut earlier = Earlier::default();
    let mut log = Vec::with_capacity(lines.len());
    for line in lines {
        let seq = line.entry;
        let entry = entry(line, &earlier)
            .and_then(|entry| {
                let expected = "a number that no entry of another vehicle has";
                must(numbers.insert(seq), || expected.to_owned())?;
                Ok(entry)
            })
            .map_err(|expected| format!("{expected}, in entry {seq}"))?;
        earlier.last = seq;
        earlier.opens.insert(seq, matches!(entry.said.act, Act::Open { .. }));
        log.push(entry);
    }
    Ok(log)
}

/// What stands earlier in a log.
#[derive(Default)]
struct Earlier {
    last: i64,
    /// Whether an entry opens a run.
    opens: BTreeMap<i64, bool>,
}

fn entry(line: &Line, earlier: &Earlier) -> Check<Entry> {
    let rises = line.entry > earlier.last && line.entry <= SEQ_MAX;
    must(rises, || format!("a number above {}, at most {SEQ_MAX}", earlier.last))?;
    must(line.mono_ms.is_some() == line.boot.is_some(), || {
        "`mono_ms` and `boot` together, or neither".to_owned()
    })?;
    let is_opened = |run| earlier.opens.get(&run) == Some(&true);
    must(line.run.is_none_or(is_opened), || {
        "a `run` that an earlier entry of this vehicle opened".to_owned()
    })?;
    let is_there = |seq: i64| earlier.opens.contains_key(&seq);
    must(line.voids.is_none_or(is_there), || {
        "in `voids` an earlier entry of this vehicle".to_owned()
    })?;
    for name in [&line.step, &line.target].into_iter().flatten() {
        must(is_name(name), || format!("a step or target of 1 to {NAME_MAX} bytes on one line"))?;
    }
    if let Some(target) = &line.target
        && let Some(to) = back(target)
    {
        let is_own = Target::back_to(to).key() == *target;
        must(is_own && is_there(to), || {
            "in `target`, after `back/`, an earlier entry of this vehicle".to_owned()
        })?;
    }
    let act = act_of(&line.act, line.step.clone(), line.target.clone(), line.voids);
    let act = act.ok_or("an act with what belongs to it: `step`, `target`, `voids` or none")?;
    must(line.facts.len() <= FACTS_MAX, || format!("at most {FACTS_MAX} facts"))?;
    line.facts.iter().try_for_each(fact)?;
    line.reading.iter().try_for_each(|one| reading(one, &act))?;
    line.finding.iter().try_for_each(|one| finding(one, &act))?;
    line.figure.iter().try_for_each(|one| figure(one, &act))?;
    let monotonic = line.mono_ms.zip(line.boot.clone()).map(|(ms, boot)| Monotonic { ms, boot });
    let at = Stamp { utc_ms: line.utc_ms, monotonic };
    let said = NewEntry {
        at,
        run: line.run,
        act,
        facts: line.facts.clone(),
        reading: line.reading.clone(),
        finding: line.finding.clone(),
        figure: line.figure.clone(),
        note: line.note.clone(),
    };
    Ok(Entry { seq: line.entry, said })
}

fn fact(fact: &Fact) -> Check<()> {
    must(is_name(&fact.variable), || format!("a variable of 1 to {NAME_MAX} bytes on one line"))?;
    let fit = |setting: &String| is_name(setting) && !setting.contains(',');
    let few = (1..=SETTINGS_MAX).contains(&fact.settings.len());
    must(few && fact.settings.iter().all(fit), || {
        let variable = &fact.variable;
        format!("1 to {SETTINGS_MAX} settings of `{variable}`, none empty or with a comma")
    })
}

fn reading(reading: &Reading, act: &Act) -> Check<()> {
    must(matches!(act, Act::Report | Act::Note), || "a `reading` only in a report or note".into())?;
    must(is_name(&reading.gauge), || format!("a gauge of 1 to {NAME_MAX} bytes on one line"))?;
    let most = Reading::MILLI_MAX;
    must((0..=most).contains(&reading.value_milli), || format!("a `value_milli` of 0 to {most}"))
}

fn finding(finding: &Finding, act: &Act) -> Check<()> {
    must(*act == Act::Report, || "a `finding` only in a report".into())?;
    let Finding { symptom, fitting, asked, answer } = finding;
    let names = [symptom, fitting, asked, answer];
    must(names.into_iter().all(|name| is_name(name)), || {
        format!("in a `finding` names of 1 to {NAME_MAX} bytes on one line")
    })
}

fn figure(figure: &Figure, act: &Act) -> Check<()> {
    must(*act == Act::Report, || "a `figure` only in a report".into())?;
    must(is_name(&figure.figure), || {
        format!("in a `figure` a name of 1 to {NAME_MAX} bytes on one line")
    })?;
    let most = Figure::MILLI_MAX;
    must(figure.value_milli.is_none_or(|value| (0..=most).contains(&value)), || {
        format!("in a `figure` a `value_milli` of 0 to {most}")
    })
}

/// Photos of a vehicle, each as it is kept.
fn photos(shots: &[Shot]) -> Check<Vec<Photo>> {
    must(shots.len() <= PHOTOS_MAX, || format!("at most {PHOTOS_MAX} photos"))?;
    let rises = shots.is_sorted_by(|one, other| one.fitting < other.fitting);
    must(rises, || "each photo once, by rising `fitting`".to_owned())?;
    let of = |shot: &Shot| {
        photo(shot)
            .map_err(|expected| format!("{expected}, in the photo of \"{}\"", short(&shot.fitting)))
    };
    shots.iter().map(of).collect()
}

fn photo(shot: &Shot) -> Check<Photo> {
    let Shot { fitting, giver, added_utc_ms, image } = shot;
    must(is_name(fitting), || format!("a `fitting` of 1 to {NAME_MAX} bytes on one line"))?;
    let bytes = base64::decoded(image).ok_or("an `image` in base64")?;
    let image = photo::picture(&bytes)?;
    let (fitting, giver, added_utc_ms) = (fitting.clone(), *giver, *added_utc_ms);
    Ok(Photo { fitting, giver, added_utc_ms, image })
}

fn is_name(text: &str) -> bool {
    !text.trim().is_empty() && text.len() <= NAME_MAX && !text.chars().any(char::is_control)
}

fn must(holds: bool, expected: impl FnOnce() -> String) -> Check<()> {
    if holds { Ok(()) } else { Err(expected()) }
}

/// The beginning of a text, to be shown.
fn short(text: &str) -> String {
    text.chars().take(NAME_MAX).collect()
}
