//! What the store promises, each promise under the conditions that could break it.

mod backup;
mod damage;
mod export;
mod kill;
mod round_trip;
mod schema;

use std::fs;
use std::path::{Path, PathBuf};

use super::*;
use crate::clock::Monotonic;
use crate::state::{Act, Fact, Figure, Finding, GaugeUnit, How, Reading};

const DAY_MS: i64 = 24 * 60 * 60 * 1_000;

/// A time on a day, counted from 2026-01-01.
fn day(number: i64) -> Stamp {
    Stamp::utc(number.saturating_mul(DAY_MS).saturating_add(1_767_225_600_000))
}

fn fact(variable: &str, settings: &[&str], how: How) -> Fact {
    let settings = settings.iter().map(|&setting| setting.to_owned()).collect();
    Fact { variable: variable.to_owned(), settings, how }
}

fn said(act: Act, facts: Vec<Fact>) -> NewEntry {
    NewEntry {
        at: day(0),
        run: None,
        act,
        facts,
        reading: None,
        finding: None,
        figure: None,
        note: String::new(),
    }
}

fn reading(unit: GaugeUnit, value_milli: i64) -> Reading {
    Reading { gauge: "fresh".into(), unit, value_milli }
}

fn figure(value_milli: Option<i64>) -> Figure {
    Figure { figure: "showers_a_day".to_owned(), value_milli }
}

fn finding(answer: &str) -> Finding {
    let [symptom, fitting, asked] = ["pump_never_stops", "pump", "tank"].map(str::to_owned);
    Finding { symptom, fitting, asked, answer: answer.to_owned() }
}

fn report(setting: &str) -> NewEntry {
    said(Act::Report, vec![fact("gas_valve.position", &[setting], How::Looked)])
}

fn open(path: &Path, now: &Stamp) -> (Store, Opened) {
    Store::open(path, now).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// A vehicle with `count` reports, each an action of its own; closed again.
fn fill(path: &Path, count: usize) {
    let (mut store, _) = open(path, &day(0));
    let vehicle = store.add_vehicle("Van", "stowfast_pack = 1\n", &day(0)).unwrap();
    for _ in 0..count {
        store.append(vehicle, &[report("shut"), report("open")]).unwrap();
    }
}

/// What a log says, without its numbers.
fn log(store: &Store, vehicle: i64) -> Vec<NewEntry> {
    store.entries(vehicle).unwrap().into_iter().map(|entry| entry.said).collect()
}

/// The files of a folder and of those in it, by path below it, with their bytes.
fn files(folder: &Path) -> Vec<(PathBuf, Vec<u8>)> {
    let mut found = Vec::new();
    let mut folders = vec![folder.to_owned()];
    while let Some(next) = folders.pop() {
        for file in fs::read_dir(next).unwrap() {
            let path = file.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else {
                let name = path.strip_prefix(folder).unwrap().to_owned();
                found.push((name, fs::read(&path).unwrap()));
            }
        }
    }
    found.sort();
    found
}

/// Numbers that look random and are the same on every run (Knuth's MMIX generator).
struct Dice(u64);

impl Dice {
    fn below(&mut self, limit: usize) -> usize {
        self.0 =
            self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(self.0 >> 33).unwrap().checked_rem(limit).unwrap()
    }
}
