//! Tests of what is believed: taking back, pausing, lapsing, and clocks that change.

use super::{Act, Entry, Fact, How, NewEntry, State};
use crate::catalogue::Catalogue;
use crate::clock::{Monotonic, Stamp};
use crate::interlock::goals;
use crate::pack;
use crate::vehicle::Vehicle;

const MIN: i64 = 60_000;

fn vehicle() -> Vehicle {
    let catalogue = Catalogue::built_in().unwrap();
    let text = include_str!("../../../demo-data/a/pack.toml");
    Vehicle::new(&pack::read("a", text.as_bytes(), catalogue).unwrap(), catalogue).unwrap()
}

fn entry(seq: i64, at: Stamp, act: Act, facts: &[(&str, &str, How)]) -> Entry {
    let facts = facts.iter().map(|(variable, setting, how)| Fact {
        variable: (*variable).to_owned(),
        settings: vec![(*setting).to_owned()],
        how: *how,
    });
    let said = NewEntry {
        at,
        run: None,
        act,
        facts: facts.collect(),
        reading: None,
        finding: None,
        figure: None,
        note: String::new(),
    };
    Entry { seq, said }
}

fn open(seq: i64, at: Stamp) -> Entry {
    entry(seq, at, Act::Open { target: "ready_to_drive".to_owned() }, &[])
}

fn look(seq: i64, at: Stamp) -> Entry {
    let step = "roof_bed.leaf.look".to_owned();
    entry(seq, at, Act::Look { step }, &[("roof_bed.leaf", "shut", How::Looked)])
}

fn fold(vehicle: &Vehicle, entries: &[Entry]) -> State {
    State::fold(vehicle, Catalogue::built_in().unwrap(), entries)
}

fn is_fresh(vehicle: &Vehicle, entries: &[Entry], now: &Stamp) -> bool {
    fold(vehicle, entries).is_fresh(vehicle, vehicle.variable("roof_bed.leaf").unwrap(), now)
}

#[test]
fn taking_back_restores_every_belief() {
    let vehicle = vehicle();
    let said = [open(1, Stamp::utc(0)), look(2, Stamp::utc(MIN))];
    let tick = entry(
        3,
        Stamp::utc(2 * MIN),
        Act::Tick { step: "roof_bed.open".to_owned() },
        &[("roof_bed.leaf", "open", How::Done), ("walk_round.walked", "due", How::Settled)],
    );
    let void = entry(4, Stamp::utc(3 * MIN), Act::Void { entry: 3 }, &[]);
    let mut ticked = said.to_vec();
    ticked.push(tick);
    assert_ne!(fold(&vehicle, &ticked).beliefs, fold(&vehicle, &said).beliefs);
    ticked.push(void);
    assert_eq!(fold(&vehicle, &ticked).beliefs, fold(&vehicle, &said).beliefs);
}

#[test]
fn taking_back_the_taking_back_counts_again() {
    let vehicle = vehicle();
    let mut said = vec![open(1, Stamp::utc(0)), look(2, Stamp::utc(MIN))];
    let looked = fold(&vehicle, &said).beliefs;
    said.push(entry(3, Stamp::utc(MIN), Act::Void { entry: 2 }, &[]));
    said.push(entry(4, Stamp::utc(MIN), Act::Void { entry: 3 }, &[]));
    assert_eq!(fold(&vehicle, &said).beliefs, looked);
}

#[test]
fn a_look_is_fresh_within_its_departure_and_its_lapse_time() {
    let vehicle = vehicle();
    let said = [open(1, Stamp::utc(0)), look(2, Stamp::utc(0))];
    assert!(is_fresh(&vehicle, &said, &Stamp::utc(120 * MIN)));
    assert!(!is_fresh(&vehicle, &said, &Stamp::utc(120 * MIN + 1)));
    let before = [look(1, Stamp::utc(0)), open(2, Stamp::utc(MIN))];
    assert!(!is_fresh(&vehicle, &before, &Stamp::utc(MIN)));
}

#[test]
fn a_pause_keeps_what_was_done_as_belief_not_as_fresh() {
    let vehicle = vehicle();
    let mut said = vec![open(1, Stamp::utc(0)), look(2, Stamp::utc(0))];
    said.push(entry(3, Stamp::utc(MIN), Act::Pause, &[]));
    said.push(entry(4, Stamp::utc(2 * MIN), Act::Resume, &[]));
    assert!(!is_fresh(&vehicle, &said, &Stamp::utc(2 * MIN)));
    let state = fold(&vehicle, &said);
    let leaf = vehicle.variable("roof_bed.leaf").unwrap();
    let names = vehicle.variables[leaf].names_of(state.beliefs[leaf].settings);
    assert_eq!(names, ["shut"]);
    assert!(state.run.unwrap().resumed);
}

#[test]
fn driving_ends_the_departure() {
    let vehicle = vehicle();
    let drive = entry(3, Stamp::utc(MIN), Act::Report, &[("engine.wheels", "moving", How::Told)]);
    let said = [open(1, Stamp::utc(0)), look(2, Stamp::utc(0)), drive];
    assert_eq!(fold(&vehicle, &said).departure, None);
}

#[test]
fn a_departure_lapses_by_the_packs_time_after_its_oldest_look() {
    let vehicle = vehicle();
    let catalogue = Catalogue::built_in().unwrap();
    let goals = goals(&vehicle, catalogue.target("ready_to_drive").unwrap(), &[]).unwrap();
    let lapsed = |vehicle: &Vehicle, now_ms: i64| {
        let said = [open(1, Stamp::utc(0)), look(2, Stamp::utc(10 * MIN))];
        fold(vehicle, &said).has_lapsed(vehicle, &goals, &Stamp::utc(now_ms))
    };
    assert!(!lapsed(&vehicle, 130 * MIN));
    assert!(lapsed(&vehicle, 130 * MIN + 1));
    assert!(lapsed(&vehicle, 3 * 24 * 60 * MIN), "a pause of three days");
    let mut shorter = vehicle.clone();
    shorter.departure_lapse_ms = 30 * MIN;
    assert!(!lapsed(&shorter, 40 * MIN));
    assert!(lapsed(&shorter, 40 * MIN + 1));
}

#[test]
fn a_clock_set_back_or_a_restart_makes_every_look_lapse() {
    let vehicle = vehicle();
    let said = [open(1, Stamp::utc(10 * MIN)), look(2, Stamp::utc(10 * MIN))];
    assert!(!is_fresh(&vehicle, &said, &Stamp::utc(9 * MIN)));
    assert!(fold(&vehicle, &said).clock_changed(&Stamp::utc(9 * MIN)));
    let at = |ms: i64, boot: &str| Stamp {
        utc_ms: 10 * MIN,
        monotonic: Some(Monotonic { ms, boot: boot.to_owned() }),
    };
    let said = [open(1, at(0, "first")), look(2, at(0, "first"))];
    assert!(is_fresh(&vehicle, &said, &at(MIN, "first")));
    assert!(!is_fresh(&vehicle, &said, &at(MIN, "second")));
}

#[test]
fn within_one_boot_the_wall_clock_does_not_matter() {
    let vehicle = vehicle();
    let at = |utc_ms: i64, ms: i64| Stamp {
        utc_ms,
        monotonic: Some(Monotonic { ms, boot: "one".to_owned() }),
    };
    let said = [open(1, at(10 * MIN, 0)), look(2, at(10 * MIN, 0))];
    assert!(is_fresh(&vehicle, &said, &at(0, MIN)), "set back");
    assert!(is_fresh(&vehicle, &said, &at(10_000 * MIN, MIN)), "set forward");
    assert!(!is_fresh(&vehicle, &said, &at(10 * MIN, 121 * MIN)));
}

#[test]
fn what_a_changed_pack_no_longer_has_is_passed_over() {
    let vehicle = vehicle();
    let said = [entry(1, Stamp::utc(0), Act::Report, &[("gone.leaf", "shut", How::Told)])];
    assert_eq!(fold(&vehicle, &said).beliefs, State::unsaid(&vehicle).beliefs);
}

/// In the morning nobody stands where the last step of the evening was.
#[test]
fn after_a_night_the_person_starts_at_home() {
    let vehicle = vehicle();
    let bed = vehicle.action("roof_bed.leaf.look").unwrap().1.zone;
    let mut said = vec![open(1, Stamp::utc(0)), look(2, Stamp::utc(0))];
    let zone = |said: &[Entry], minute| fold(&vehicle, said).zone_at(&vehicle, &Stamp::utc(minute));
    assert_eq!(zone(&said, 120 * MIN), bed, "as long as a departure lasts");
    assert_eq!(zone(&said, 120 * MIN + 1), vehicle.home);
    assert_eq!(zone(&said, -1), vehicle.home, "the clock was set back");
    said.push(entry(5, Stamp::utc(599 * MIN), Act::Note, &[]));
    // Opening a routine closes the one under way, in the same breath.
    said.push(entry(6, Stamp::utc(600 * MIN), Act::Close, &[]));
    said.push(open(7, Stamp::utc(600 * MIN)));
    assert_eq!(zone(&said, 600 * MIN), vehicle.home);
}

#[test]
fn who_drives_is_at_the_wheel_and_arrives_there() {
    let vehicle = vehicle();
    let wheels = |seq: i64, minute: i64, setting: &'static str| {
        entry(seq, Stamp::utc(minute * MIN), Act::Report, &[("engine.wheels", setting, How::Told)])
    };
    let mut said = vec![look(1, Stamp::utc(0)), wheels(2, 1, "moving")];
    let wheel = vehicle.variables[vehicle.variable("engine.wheels").unwrap()].zone;
    let zone = |said: &[Entry], minute: i64| {
        fold(&vehicle, said).zone_at(&vehicle, &Stamp::utc(minute * MIN))
    };
    assert_eq!(zone(&said, 500), wheel);
    said.push(wheels(3, 500, "still"));
    assert_eq!(zone(&said, 501), wheel);
}

const DAY: i64 = 24 * 60 * MIN;

/// A vehicle that may drive with gas open, and a country whose row says so since day 0.
fn abroad(says: &str) -> Vehicle {
    let mut catalogue = Catalogue::built_in().unwrap().clone();
    let row = format!(
        "rule = \"gas_on_road\"\nsays = \"{says}\"\nsource = \"made up\"\ndate = \"1970-01-01\""
    );
    catalogue.local.insert("xx".to_owned(), vec![toml::from_str(&row).unwrap()]);
    let text = include_str!("../../../demo-data/a/pack.toml");
    let pack = pack::read("a", text.as_bytes(), &catalogue).unwrap();
    Vehicle::new(&pack, &catalogue).unwrap()
}

/// What is believed of gas open while driving, once a country was told.
fn gas_on_road(vehicle: &Vehicle, said: &[Entry], now: i64) -> Vec<String> {
    let number = vehicle.variable("local_rules.gas_on_road").unwrap();
    vehicle.variables[number]
        .names_of(fold(vehicle, said).settings(vehicle, &Stamp::utc(now))[number])
}

fn told(seq: i64, at: i64, what: &str, file: &str) -> Entry {
    entry(seq, Stamp::utc(at), Act::Report, &[(what, file, How::Told)])
}

const ASK: [&str; 2] = ["allowed", "forbidden"];

#[test]
fn a_row_says_ask_from_the_day_it_is_a_year_old() {
    for says in ["allowed", "forbidden"] {
        let vehicle = abroad(says);
        let said = [told(1, 100 * DAY, super::COUNTRY, "xx")];
        assert_eq!(gas_on_road(&vehicle, &[], 100 * DAY), ASK, "nobody said a country");
        assert_eq!(gas_on_road(&vehicle, &said, 364 * DAY), [says], "a day short of a year");
        assert_eq!(gas_on_road(&vehicle, &said, 365 * DAY), ASK);
        assert_eq!(gas_on_road(&vehicle, &said, 366 * DAY), ASK, "a day over");
        assert_eq!(gas_on_road(&vehicle, &said, -DAY), ASK, "of a day to come");
    }
}

#[test]
fn a_missing_row_says_ask_and_the_strictest_counts() {
    let vehicle = abroad("allowed");
    let country = told(1, 0, super::COUNTRY, "xx");
    assert_eq!(gas_on_road(&vehicle, &[told(1, 0, super::COUNTRY, "yy")], DAY), ASK);
    assert_eq!(gas_on_road(&vehicle, std::slice::from_ref(&country), DAY), ["allowed"]);
    let ferry = told(2, 0, super::CARRIER, "carrier_ferry");
    assert_eq!(gas_on_road(&vehicle, &[country.clone(), ferry.clone()], DAY), ASK);
    let wheels = |seq: i64, setting: &'static str| {
        entry(seq, Stamp::utc(DAY), Act::Report, &[("engine.wheels", setting, How::Told)])
    };
    let trip = [country.clone(), ferry, wheels(3, "moving"), wheels(4, "still")];
    assert_eq!(gas_on_road(&vehicle, &trip, DAY), ASK, "the next trip may cross a border");
    let again = [trip.as_slice(), &[told(5, DAY, super::COUNTRY, "xx")]].concat();
    assert_eq!(gas_on_road(&vehicle, &again, DAY), ["allowed"], "no carrier on this one");
    let asked = entry(
        3,
        Stamp::utc(0),
        Act::Report,
        &[("local_rules.gas_on_road", "forbidden", How::Told)],
    );
    assert_eq!(gas_on_road(&vehicle, &[country, asked], DAY), ["forbidden"], "asked, and said");
}
