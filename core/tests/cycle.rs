//! A winter, read from end to end: in use, serviced, laid up, months of standing, back in service
//! on a pitch again, and ready for the first trip. Every stage starts from what the one before it left behind.
//!
//! One golden file for each vehicle: `UPDATE_GOLDEN=1 cargo test --test cycle` writes them anew.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::arithmetic_side_effects,
    reason = "a test fails loudly"
)]

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::{Path, PathBuf};

use stowfast_core::clock::Stamp;
use stowfast_core::engine::{Engine, GestureKind, Line, RoutinePage, StepRow};

const MIN: i64 = 60_000;
const DAY: i64 = 24 * 60 * MIN;

/// The morning that the trip of the vehicle tells of. Unit: ms.
const MORNING: i64 = 1_792_000_000_000;

/// What is carried out, one after the other, and how long the vehicle stood before it. Unit: days.
const STAGES: [(&str, i64); 6] = [
    ("serviced", 0),
    ("laid_up_winter", 0),
    ("back_in_service", 100),
    ("gas_back_in_service", 0),
    ("pitched_hookup", 0),
    ("ready_to_drive", 0),
];

/// Most times that one step comes in a stage: two plans that take turns would never end.
const TWICE: usize = 2;

/// A vehicle on its way through the winter.
struct Winter {
    engine: Engine,
    /// Unit: ms.
    now: i64,
    /// What was read on the way.
    text: String,
}

impl Winter {
    fn of(vehicle: &str) -> Self {
        let mut engine = Engine::in_memory("en").unwrap();
        engine.add_demo(vehicle, &Stamp::utc(MORNING)).unwrap();
        Self { engine, now: MORNING, text: String::new() }
    }

    fn page(&self) -> RoutinePage {
        self.engine.routine(&Stamp::utc(self.now)).unwrap().unwrap()
    }

    /// Carries a target out as its lists come, and lets every wait pass.
    fn stage(&mut self, target: &str) {
        _ = writeln!(self.text, "== {target}");
        self.engine.open_run(target, &Stamp::utc(self.now)).unwrap();
        for line in self.page().warnings.iter().chain(&self.page().impossible) {
            _ = writeln!(self.text, "! {line}");
        }
        let mut done: BTreeMap<String, usize> = BTreeMap::new();
        loop {
            let page = self.page();
            let Some(gesture) = page.stops.iter().flat_map(|stop| &stop.gestures).next() else {
                _ = writeln!(self.text, "{:?}: {}\n", page.verdict, page.end_text);
                assert!(page.finished, "{target}: {}", page.headline);
                self.engine.close_run(&Stamp::utc(self.now)).unwrap();
                return;
            };
            for step in page.steps.iter().take(gesture.steps.len()) {
                let times = done.entry(step.id.clone()).or_default();
                *times += 1;
                assert!(*times <= TWICE, "{} over and over:\n{}", step.id, self.text);
                self.read(step);
                self.now += i64::from(step.hands_on_s + step.walk_s + step.wait_s) * 1000;
            }
            if gesture.kind != GestureKind::Wait {
                let line = |step: &String| Line { step: step.clone(), odd: None };
                let lines: Vec<_> = gesture.steps.iter().map(line).collect();
                let changes = self.engine.confirm(&lines, &Stamp::utc(self.now)).unwrap();
                for line in changes.warnings {
                    _ = writeln!(self.text, "! {line}");
                }
            }
        }
    }

    fn read(&mut self, step: &StepRow) {
        let wanted = if step.wanted.is_empty() { "" } else { " -> " };
        _ = writeln!(self.text, "{}: {}{wanted}{}", step.zone_title, step.text, step.wanted);
        for line in step.cautions.iter().flat_map(|caution| caution.lines()) {
            _ = writeln!(self.text, "    {line}");
        }
    }
}

fn through(vehicle: &str) -> String {
    let mut winter = Winter::of(vehicle);
    for (target, stood) in STAGES {
        winter.now += stood * DAY;
        winter.stage(target);
    }
    winter.text
}

fn kept(vehicle: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/golden/cycle").join(format!("{vehicle}.txt"))
}

fn check(vehicle: &str) {
    let found = through(vehicle);
    if std::env::var_os("UPDATE_GOLDEN").is_some() {
        std::fs::create_dir_all(kept(vehicle).parent().unwrap()).unwrap();
        std::fs::write(kept(vehicle), &found).unwrap();
    }
    let kept = std::fs::read_to_string(kept(vehicle)).unwrap_or_default();
    assert!(kept == found, "{vehicle}; found:\n{found}");
}

#[test]
fn a_winter_of_the_coach_built_reads_from_end_to_end() {
    check("a");
}

#[test]
fn a_winter_of_the_large_one_reads_from_end_to_end() {
    check("c");
}
