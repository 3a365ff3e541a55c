use std::panic::{AssertUnwindSafe, catch_unwind, resume_unwind};
use std::sync::Mutex;

use super::{Engine, EngineError, Moment, core};

fn engine() -> Engine {
    Engine { inner: Mutex::new(core::Engine::in_memory("en").unwrap()) }
}

fn now() -> Moment {
    Moment { utc_ms: 1_800_000_000_000, monotonic_ms: None, boot_id: None }
}

#[test]
fn after_a_call_that_broke_off_every_call_fails_and_none_breaks_off() {
    let engine = engine();
    let held = AssertUnwindSafe(|| {
        let _held = engine.lock().unwrap();
        resume_unwind(Box::new("a fault"));
    });
    assert!(catch_unwind(held).is_err());
    let broken = EngineError::Internal { detail: "an earlier call broke off".into() };
    assert_eq!(engine.vehicles().unwrap_err(), broken);
    assert_eq!(engine.add_demo("a".into(), now()).unwrap_err(), broken);
}

#[test]
fn a_way_is_previewed_and_a_step_refused_without_a_routine() {
    let engine = engine();
    engine.add_demo("a".into(), now()).unwrap();
    let way = engine.preview("ready_to_drive".into(), now()).unwrap();
    assert!(!way.steps.is_empty());
    assert_eq!(engine.refusals(way.steps[0].id.clone(), now()), Ok(Vec::new()));
    assert!(!engine.refusals("lead.stow".into(), now()).unwrap().is_empty());
    assert_eq!(engine.routine(now()), Ok(None));
}

#[test]
fn what_is_left_anyway_and_what_is_noted_stand_in_the_record() {
    let engine = engine();
    engine.add_demo("a".into(), now()).unwrap();
    engine.open_run("ready_to_drive".into(), now()).unwrap();
    let left = engine.left_anyway("step.in".into(), "stiff".into(), now()).unwrap().entries;
    let noted = engine.note("ask about the step".into(), now()).unwrap().entries;
    let log = engine.log(2).unwrap();
    assert_eq!([log[1].entry, log[0].entry].as_slice(), [left, noted].concat());
    assert!(log[1].text.contains("stiff") && log[0].text.contains("ask about the step"));
    assert!(engine.note(" ".into(), now()).is_err());
}

#[test]
fn a_way_is_shared_and_a_place_is_left_again() {
    let engine = engine();
    engine.add_demo("a".into(), now()).unwrap();
    let two = engine.shared("ready_to_drive".into(), now()).unwrap();
    assert_eq!(two.people.len(), 2);
    assert!(two.elapsed_s < two.alone_s);
    for place in engine.places().unwrap() {
        engine.arrive_at(place.id, now()).unwrap();
        engine.drive_off(now()).unwrap();
        assert!(engine.now_page(now()).unwrap().moving);
    }
    engine.arrive(now()).unwrap();
    assert!(!engine.now_page(now()).unwrap().moving);
    let nowhere = EngineError::NotFound { kind: "place".into(), id: "the moon".into() };
    assert_eq!(engine.arrive_at("the moon".into(), now()).unwrap_err(), nowhere);
}

#[test]
fn everything_goes_into_one_text_and_comes_back() {
    let first = engine();
    first.add_demo("a".into(), now()).unwrap();
    first.open_run("ready_to_drive".into(), now()).unwrap();
    let text = first.export_text().unwrap();
    let other = engine();
    let changes = other.import_text(text.clone(), "kept.json".into(), now()).unwrap();
    assert_eq!(changes.entries.len(), first.log(100).unwrap().len());
    assert_eq!(changes.warnings.len(), 1);
    assert_eq!(other.routine(now()), first.routine(now()));
    assert_eq!(other.export_text(), Ok(text.clone()));
    let broken = other.import_text(text.replace("\"act\"", "\"deed\""), "kept.json".into(), now());
    let Err(EngineError::BrokenPack { file, line, .. }) = broken else { panic!("{broken:?}") };
    assert_eq!((file.as_str(), line > 1), ("kept.json", true));
    assert_eq!(other.export_text(), Ok(text));
}

#[test]
fn a_search_is_answered_undone_and_begun_anew() {
    let engine = engine();
    engine.add_demo("a".into(), now()).unwrap();
    let fault = || "pump_never_stops".to_owned();
    assert!(engine.faults(now()).unwrap().iter().any(|row| row.id == fault()));
    let before = engine.fault(fault(), now()).unwrap();
    let said = engine.answer_fault(fault(), "taps".into(), "open".into(), now()).unwrap();
    let after = engine.fault(fault(), now()).unwrap();
    assert_eq!((after.tried[0].entry, after.fault.said_count), (said.entries[0], 1));
    engine.undo_fault(fault(), now()).unwrap();
    assert_eq!(engine.fault(fault(), now()), Ok(before));
    engine.restart_fault(fault(), now()).unwrap();
    let none = engine.undo_fault(fault(), now());
    assert!(none.is_ok(), "that it began anew can be taken back: {none:?}");
    let wrong = engine.answer_fault(fault(), "taps".into(), "ajar".into(), now());
    assert!(matches!(wrong, Err(EngineError::InvalidInput { .. })), "{wrong:?}");
}
