//! Everything in one file: read back it is the same state, and a damaged file changes nothing.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    reason = "a test may fail loudly"
)]

use std::cell::Cell;
use std::fmt::Debug;

use serde_json::{Value, json};
use stowfast_core::clock::{Monotonic, Stamp};
use stowfast_core::engine::{EXPORT_BYTES_MAX, Engine};
use stowfast_core::error::Error;
use stowfast_tests::choices::Choices;
use stowfast_tests::draw::{Effort, law};
use stowfast_tests::owner::{at, demo, demo_of};

const TARGETS: [&str; 3] = ["ready_to_drive", "pitched_hookup", "parked_only"];

/// What an owner does, by two numbers; whether it is taken does not matter.
fn act(engine: &mut Engine, what: usize, pick: usize, now: &Stamp) {
    let step = engine.routine(now).ok().flatten().and_then(|page| {
        let step = page.steps.get(pick % page.steps.len().max(1))?;
        Some((step.id.clone(), step.choices.first().map(|choice| choice.id.clone())))
    });
    let log = engine.log(50).unwrap();
    let entry = log.get(pick % log.len().max(1)).map_or(1, |row| row.entry);
    let things = engine.things(now).unwrap();
    let thing = &things[(pick * 7) % things.len()];
    let _ = match (what, step) {
        (0, _) => engine.open_run(TARGETS[pick % TARGETS.len()], now),
        (1 | 2, Some((step, _))) => engine.tick(&step, now),
        (3, Some((step, Some(choice)))) => engine.look(&step, &choice, now),
        (4, Some((step, _))) => engine.cannot(&step, "stiff\nand \"cold\"", now),
        (5, Some((step, _))) => engine.left_anyway(&step, "", now),
        (6, _) => engine.unmark(entry, now),
        (7, _) => engine.open_run(&format!("back/{entry}"), now),
        (8, _) => engine.pause(now),
        (9, _) => engine.resume(now),
        (10, _) => engine.drive_off(now),
        (11, _) => engine.arrive_at("ferry", now),
        (13, _) => {
            let faults = engine.faults(now).unwrap();
            let fault = &faults[pick % faults.len()].id;
            let page = engine.fault(fault, now).unwrap();
            let (asked, answers) = page
                .question
                .map(|row| (row.id, row.answers))
                .or_else(|| page.found.map(|row| (row.id, row.answers)))
                .unwrap_or_default();
            match answers.get(pick % answers.len().max(1)) {
                Some(answer) if !pick.is_multiple_of(5) => {
                    engine.answer_fault(fault, &asked, &answer.id, now)
                }
                _ => engine.undo_fault(fault, now),
            }
        }
        (12, _) => engine.note("tab\t, \u{1f690} \u{0}", now),
        _ => {
            let choice = thing.choices.get(pick % thing.choices.len().max(1));
            engine.report(&thing.variable, choice.map_or("", |choice| &choice.id), now)
        }
    };
}

fn clock(minute: usize) -> Stamp {
    let minute = i64::try_from(minute).unwrap();
    let boot = if minute < 20 { "one" } else { "two" };
    let monotonic = Some(Monotonic { ms: minute * 60_000, boot: boot.to_owned() });
    Stamp { monotonic, ..at(minute) }
}

/// Every page that is about the vehicle, word for word.
fn pages(engine: &Engine, now: &Stamp) -> Value {
    json!([
        engine.vehicles().unwrap(),
        engine.now_page(now).unwrap(),
        engine.routine(now).unwrap(),
        engine.gauges(now).unwrap(),
        engine.fridge(now).unwrap(),
        engine.things(now).unwrap(),
        engine.log(1_000).unwrap(),
        engine.faults(now).unwrap(),
        engine.fault("pump_never_stops", now).unwrap(),
        engine.preview("ready_to_drive", now).unwrap(),
    ])
}

/// The same without the numbers of entries.
fn unnumbered(engine: &Engine, now: &Stamp) -> Value {
    let log = engine.log(1_000).unwrap().into_iter();
    let steps =
        engine.routine(now).unwrap().map(|page| (page.steps, page.impossible, page.stuck.len()));
    let mut page = engine.now_page(now).unwrap();
    page.items.iter_mut().filter_map(|item| item.stuck.as_mut()).for_each(|stuck| stuck.entry = 0);
    json!([
        (page.verdict, page.items, page.headline, page.moving),
        steps,
        engine.gauges(now).unwrap(),
        engine.fridge(now).unwrap(),
        engine.things(now).unwrap(),
        log.map(|row| (row.at_utc_ms, row.voided)).collect::<Vec<_>>(),
    ])
}

fn read_back(text: &str) -> Engine {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.import(text.as_bytes(), "kept.json", &at(2)).unwrap();
    engine
}

/// What an owner did, in two halves, at one minute each.
#[derive(Debug)]
struct Said(Vec<(usize, usize)>);

impl Said {
    fn drawn(list: &[u16]) -> Self {
        let mut choices = Choices::new(list);
        let said = (0..list.len() / 2).map(|_| (choices.below(15), choices.below(600)));
        Self(said.collect())
    }
}

fn same<T: PartialEq + Debug + ?Sized>(one: &T, other: &T) -> Result<(), String> {
    if one == other { Ok(()) } else { Err(format!("{one:?}\n is not \n{other:?}")) }
}

/// Into an empty database everything comes as it was, and out again as the same bytes; beside
/// another vehicle it differs in nothing but numbers, also where it went on in between.
#[test]
fn what_is_read_back_is_the_same_state() {
    let kinds = ["\"run\":", "\"voids\":", "\"target\":\"back/", "\"cannot\"", "\"boot\":\"two\""];
    let met = [const { Cell::new(0) }; 5];
    let held = law(
        Effort { cases: 16, numbers_max: 90 },
        |list| Some(Said::drawn(list)),
        |said| {
            let (mut engine, mut other) = (demo(), demo_of("b"));
            for (minute, (what, which)) in said.0.iter().enumerate() {
                if minute == said.0.len() / 2 {
                    other
                        .import(
                            engine.export_text().unwrap().as_bytes(),
                            "half.json",
                            &clock(minute),
                        )
                        .unwrap();
                }
                act(&mut engine, *what, *which, &clock(minute));
            }
            let text = engine.export_text().unwrap();
            for (kind, met) in kinds.iter().zip(&met) {
                met.set(met.get() + usize::from(text.contains(kind)));
            }
            let copy = read_back(&text);
            same(copy.export_text().unwrap().as_str(), &text)?;
            let later = clock(said.0.len() + 30);
            for now in [&clock(said.0.len()), &later] {
                same(&pages(&copy, now), &pages(&engine, now))?;
            }

            other.import(text.as_bytes(), "whole.json", &later).unwrap();
            other.choose_vehicle(other.vehicles().unwrap()[1].id).unwrap();
            same(&unnumbered(&other, &later), &unnumbered(&engine, &later))
        },
    );
    assert_eq!(held, Ok(()));
    assert!(met.iter().all(|met| met.get() > 4), "{met:?}");
}

/// A database, and that whatever is tried leaves it as it is.
struct Untouched {
    engine: Engine,
    before: String,
}

impl Untouched {
    fn new() -> Self {
        let engine = demo_of("b");
        let before = engine.export_text().unwrap();
        Self { engine, before }
    }

    /// What is said of a file that does not read.
    fn refuses(&mut self, bytes: &[u8]) -> String {
        let error = self.engine.import(bytes, "bad.json", &at(2)).map(|_| ()).unwrap_err();
        assert!(matches!(error, Error::Pack { .. }), "{error}");
        assert_eq!(self.engine.export_text().unwrap(), self.before, "{error}");
        let said = error.to_string();
        assert!(
            said.starts_with("bad.json") && said.contains("expected ") && said.len() < 600,
            "{said}"
        );
        said
    }

    #[track_caller]
    fn says(&mut self, text: &str, expected: &str) {
        let said = self.refuses(text.as_bytes());
        assert!(said.contains(expected), "{said}");
    }
}

/// Vehicle (a) with a run, something voided and something to put back.
fn whole() -> String {
    let mut engine = demo();
    let opened = engine.open_run("ready_to_drive", &clock(1)).unwrap().entries[0];
    let ticked = engine.tick("step.in", &clock(2)).unwrap().entries[0];
    engine.unmark(ticked, &clock(3)).unwrap();
    engine.open_run(&format!("back/{opened}"), &clock(4)).unwrap();
    engine.note("the last", &clock(5)).unwrap();
    engine.export_text().unwrap()
}

#[test]
fn a_file_cut_anywhere_is_refused() {
    let (text, mut here) = (whole(), Untouched::new());
    let whole = text.trim_end().len();
    for end in (0..whole).step_by(97).chain([whole - 1]) {
        let said = here.refuses(&text.as_bytes()[..end]);
        assert!(said.contains("the rest of the file: it ends too early"), "{end}: {said}");
    }
}

#[test]
fn a_file_with_a_byte_of_its_structure_flipped_is_refused() {
    let (text, mut here) = (whole(), Untouched::new());
    let log = text.find("\"log\":").unwrap();
    let structure = text.bytes().enumerate().skip(log);
    let marks = structure.filter(|(_, byte)| b"{}[]:,".contains(byte));
    let mut tried = 0;
    for (place, byte) in marks.step_by(11) {
        let mut bytes = text.clone().into_bytes();
        bytes[place] = byte ^ 4;
        here.refuses(&bytes);
        tried += 1;
    }
    assert!(tried > 30, "{tried}");
}

#[test]
fn another_version_is_named() {
    let (text, mut here) = (whole(), Untouched::new());
    let of = |version: &str| {
        text.replacen("\"stowfast_export\":5", &format!("\"stowfast_export\":{version}"), 1)
    };
    here.says(&of("6").replacen("\"title\"", "\"name\"", 1), "a newer Stowfast wrote this one: 6");
    here.says(&of("0"), "stowfast_export 1 to 5 (not 0)");
    here.says(&of("\"1\""), "a file that Stowfast exported");
    here.says("{\"stowfast_json\":1}", "a file that Stowfast exported");
    here.says("stowfast_pack = 1\n", "bad.json:1: expected a file that Stowfast exported");
    here.says("", "ends too early");
}

/// What is wrong is said with its line, or with its vehicle and entry.
#[test]
fn what_could_not_have_come_about_is_refused_and_said_where() {
    let (text, mut here) = (whole(), Untouched::new());
    let line = text.lines().position(|line| line.contains("\"act\":\"void\"")).unwrap() + 1;
    for (old, new, expected) in [
        ("\"act\":\"void\"", "\"act\":\"vanish\"", "an act with what belongs to it"),
        (
            "\"act\":\"void\",",
            "\"act\":\"void\",\"colour\":1,",
            &format!("bad.json:{line}: expected one of"),
        ),
        ("\"act\":\"void\",", "", &format!("bad.json:{line}: expected a field `act`")),
        ("\"act\":\"void\",", "\"act\":true,", &format!("bad.json:{line}: expected a string")),
        (
            "\"voids\":8",
            "\"voids\":3000",
            "in `voids` an earlier entry of this vehicle, in entry 9 of \"Wren",
        ),
        ("\"voids\":8", "\"voids\":9", "in `voids` an earlier entry"),
        ("\"target\":\"back/7\"", "\"target\":\"back/99\"", "after `back/`, an earlier entry"),
        ("\"target\":\"back/7\"", "\"target\":\"back/07\"", "after `back/`, an earlier entry"),
        ("\"target\":\"back/7\"", "\"target\":\"\"", "a step or target of 1 to 500 bytes"),
        (
            "\"run\":7",
            "\"run\":3",
            "a `run` that an earlier entry of this vehicle opened, in entry 8",
        ),
        ("\"entry\":9", "\"entry\":8", "a number above 8"),
        ("\"entry\":9", "\"entry\":9007199254740992", "at most 9007199254740991, in entry"),
        (
            "\"boot\":\"one\"",
            "\"note\":\"\"",
            "`mono_ms` and `boot` together, or neither, in entry 7",
        ),
        ("\"settings\":[\"off\"]", "\"settings\":[]", "1 to 64 settings of `engine.running`"),
        ("\"settings\":[\"off\"]", "\"settings\":[\"off,on\"]", "none empty or with a comma"),
        ("\"how\":\"done\"", "\"how\":\"dreamt\"", "expected one of `done`"),
        (
            "\"variable\":\"step.step\"",
            "\"variable\":\"step\\u0007\"",
            "a variable of 1 to 500 bytes",
        ),
        ("\"note\":\"the last\"", "\"note\":\"the\u{1}last\"", "readable JSON (control character"),
        (
            "\"title\":\"Wren",
            "\"title\":\"Wren\\n",
            "a title of 1 to 500 bytes on one line, for vehicle 1",
        ),
        ("\"title\":\"Wren", "\"title\":\"Robin", "the title that its pack has, \"Wren"),
        ("\"current\":true", "\"current\":false", "one vehicle that is `current`, not 0"),
        ("\"settings\":[\n]", "\"settings\":[{\"key\":\"\",\"value\":\"x\"}]", "each setting once"),
        (
            "\"stowfast_export\":5,",
            "\"stowfast_export\":5,\"more\":2,",
            "bad.json:1: expected one of",
        ),
    ] {
        assert!(text.contains(old), "{old} in {text}");
        here.says(&text.replacen(old, new, 1), expected);
    }
}

#[test]
fn vehicles_of_one_title_or_with_each_others_entries_are_refused() {
    let mut here = Untouched::new();
    let of = |title: &str, log: &str| {
        let current = title == "One";
        format!(
            "{{\"title\":\"{title}\",\"added_utc_ms\":0,\"current\":{current},\"pack\":\"\",\"log\":[{log}]}}"
        )
    };
    let file = |vans: &[String]| {
        format!("{{\"stowfast_export\":5,\"settings\":[],\"vehicles\":[{}]}}", vans.join(","))
    };
    let open = "{\"entry\":1,\"utc_ms\":0,\"act\":\"open\",\"target\":\"ready_to_drive\"}";
    here.says(&file(&[of("One", ""), of("One", "")]), "one vehicle that is `current`, not 2");
    let twice = file(&[of("One", ""), of("Two", ""), of("Two", "")]);
    here.says(&twice, "one vehicle only called \"Two\"");
    let theirs = "{\"entry\":2,\"utc_ms\":0,\"run\":1,\"act\":\"close\"}";
    here.says(&file(&[of("One", open), of("Two", theirs)]), "opened, in entry 2 of \"Two\"");
    here.says(
        &file(&[of("One", open), of("Two", open)]),
        "no entry of another vehicle has, in entry 1 of \"Two\"",
    );
    let vans: Vec<_> =
        (0..101).map(|n| of(&if n == 0 { "One".to_owned() } else { n.to_string() }, "")).collect();
    here.says(&file(&vans), "at most 100 vehicles");
    let facts =
        vec!["{\"variable\":\"a.b\",\"settings\":[\"c\"],\"how\":\"told\"}"; 4_001].join(",");
    let long = format!("{{\"entry\":1,\"utc_ms\":0,\"act\":\"report\",\"facts\":[{facts}]}}");
    here.says(&file(&[of("One", &long)]), "at most 4000 facts, in entry 1");
    let pack = file(&[of("One", "")])
        .replace("\"pack\":\"\"", &format!("\"pack\":\"{}\"", "#".repeat(1_000_001)));
    here.says(&pack, "a pack of at most 1000000 bytes, for vehicle 1");
}

#[test]
fn what_is_far_too_large_is_refused_in_a_short_word() {
    let mut here = Untouched::new();
    here.says(&format!("\"{}\"", "x".repeat(100_000_000)), "a file of at most 64000000 bytes");
    let long = "x".repeat(EXPORT_BYTES_MAX - 1_000);
    let file = |settings: &str| {
        format!("{{\"stowfast_export\":5,\"settings\":[{settings}],\"vehicles\":[]}}")
    };
    here.says(
        &file(&format!("{{\"key\":\"a\",\"value\":\"\",\"{long}\":1}}")),
        "unknown field `xxx",
    );
    here.says(&"[".repeat(1_000_000), "a file that Stowfast exported");
    here.says(&file(&"[".repeat(1_000_000)), "bad.json:1: expected");
    here.refuses(b"{\"stowfast_export\":5,\"settings\":[{\"key\":\"\xff\"}],\"vehicles\":[]}");
}

/// A newer version may check more strictly: such a pack is kept, with its log, and that is said.
#[test]
fn a_pack_that_no_longer_reads_is_kept_and_its_problem_told() {
    let strict = whole().replacen("stowfast_pack = 1", "stowfast_pack = 1\\nfar_too_new = true", 1);
    let mut engine = Engine::in_memory("en").unwrap();
    let told = engine.import(strict.as_bytes(), "kept.json", &at(600)).unwrap().warnings;
    assert_eq!(told.len(), 2, "{told:?}");
    assert!(
        told[1].contains("cannot be read by this version")
            && told[1].contains("Put the pack right")
    );
    let row = &engine.vehicles().unwrap()[0];
    assert!(row.problem.is_some() && row.current);
    assert_eq!(engine.export_text().unwrap(), strict);
}

#[test]
fn on_another_device_it_is_told_whose_ages_are_not_known() {
    let mut engine = demo();
    engine.note("seen to", &clock(1)).unwrap();
    let text = engine.export_text().unwrap();
    let told = |now: &Stamp| {
        let mut copy = Engine::in_memory("en").unwrap();
        copy.import(text.as_bytes(), "kept.json", now).unwrap().warnings
    };
    assert_eq!(told(&clock(5)).len(), 1, "the same start of the same device");
    let other = told(&clock(25));
    assert!(other[1].contains("cannot be known on this device: Wren"), "{other:?}");
    let mut copy = read_back(&text);
    let again = copy.import(text.as_bytes(), "kept.json", &clock(25)).unwrap().warnings;
    assert!(again.len() == 1 && again[0].starts_with("Nothing new"), "{again:?}");
}

#[test]
fn an_invented_vehicle_that_went_on_differently_is_left_as_it_is() {
    let mut engine = demo();
    engine.note("mine", &at(1)).unwrap();
    let before = pages(&engine, &at(2));
    let told = engine.import(whole().as_bytes(), "kept.json", &at(2)).unwrap();
    assert_eq!(told.entries, [0_i64; 0]);
    assert!(told.warnings[0].starts_with("Left as it is here: Wren"), "{:?}", told.warnings);
    assert_eq!(pages(&engine, &at(2)), before);

    // One that is somebody's own is named, and nothing is changed.
    let own = |text: &str| text.replace("invented = true", "invented = false");
    let mut engine = read_back(&own(&demo().export_text().unwrap()));
    engine.note("mine", &at(1)).unwrap();
    let before = engine.export_text().unwrap();
    let error =
        engine.import(own(&whole()).as_bytes(), "kept.json", &at(2)).map(|_| ()).unwrap_err();
    assert!(
        matches!(&error, Error::Conflict { detail } if detail.contains("\"Wren, a coach-built for two\" went on differently here, from entry")),
        "{error}"
    );
    assert_eq!(engine.export_text().unwrap(), before);
}

#[test]
fn one_title_is_one_vehicle_also_of_an_invented_one() {
    let mut engine = demo();
    assert!(matches!(engine.add_demo("a", &at(1)), Err(Error::Conflict { .. })));
    assert_eq!(engine.vehicles().unwrap().len(), 1);
}
