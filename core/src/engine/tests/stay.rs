//! Numbers that people tell of themselves, and a stay without services, on the demo vehicles.

use super::{MIN, at, demo};
use crate::clock::Stamp;
use crate::engine::{Engine, GaugeUnit, Holds, ReserveRow, StayRow};
use crate::error::Error;

const DAY: i64 = 24 * 60;

/// Vehicle (c) on level ground: one fresh tank of 150 L, two waste tanks, a cassette of 18 L, a shower.
fn coach() -> Engine {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo("c", &at(0)).unwrap();
    engine.report("pitch.ground", "level", &at(0)).unwrap();
    engine
}

fn told(engine: &mut Engine, figures: &[(&str, f64)]) {
    for (id, value) in figures {
        engine.tell_figure(id, Some(*value), &at(0)).unwrap();
    }
}

const HABITS: [(&str, f64); 5] = [
    ("people", 2.0),
    ("showers_a_day", 0.5),
    ("shower_l", 12.0),
    ("flushes_a_day", 4.0),
    ("flush_l", 0.3),
];

fn row(engine: &Engine, nights: i64, id: &str) -> StayRow {
    let page = engine.stay(nights, &at(0)).unwrap();
    page.rows.into_iter().find(|row| row.id == id).unwrap()
}

fn reserve(engine: &Engine, id: &str, now: &Stamp) -> ReserveRow {
    engine.reserves(now).unwrap().rows.into_iter().find(|row| row.id == id).unwrap()
}

#[test]
fn what_nobody_said_is_asked_for_and_not_made_up() {
    let mut engine = coach();
    let fresh = row(&engine, 2, "fresh");
    assert_eq!((fresh.holds, fresh.used_lower, fresh.do_text), (None, None, None));
    let asked = "Or say: People on board, Showers a day.";
    assert!(fresh.missing.iter().any(|one| one == asked), "{:?}", fresh.missing);
    told(&mut engine, &HABITS[..2]);
    let fresh = row(&engine, 2, "fresh");
    assert!(fresh.missing.iter().any(|one| one == "Or say: Water for a shower."));
    told(&mut engine, &HABITS);
    // 15 to 30 L a day for two by the published ranges, and half a shower of 12 L.
    let fresh = row(&engine, 2, "fresh");
    assert_eq!((fresh.used_lower, fresh.used_upper), (Some(42_000), Some(72_000)));
}

#[test]
fn own_readings_go_before_what_people_say() {
    let mut engine = coach();
    told(&mut engine, &HABITS);
    assert_eq!(reserve(&engine, "fresh", &at(1)).used_lower_per_day, Some(21_000));
    for (minute, percent) in [(1, 90.0), (1 + DAY, 80.0)] {
        engine.enter_reading("fresh", GaugeUnit::Percent, percent, &at(minute)).unwrap();
    }
    let own = reserve(&engine, "fresh", &at(1 + DAY));
    assert_eq!(own.rests_text.as_deref(), Some("By its readings."));
    // 150 L, five per cent out either way: 0 to 30 L went.
    assert_eq!((own.used_lower_per_day, own.used_upper_per_day), (Some(0), Some(30_000)));
}

#[test]
fn a_tank_is_filled_to_what_its_gauge_must_show() {
    let mut engine = coach();
    told(&mut engine, &HABITS);
    engine.enter_reading("fresh", GaugeUnit::Percent, 20.0, &at(0)).unwrap();
    let fresh = row(&engine, 2, "fresh");
    assert_eq!(fresh.holds, Some(Holds::No));
    // 72 L and the 3 L below the empty mark are half of 150 L; the gauge may be 5 per cent out.
    let text = fresh.do_text.unwrap();
    assert!(
        text.starts_with("Fill it first, until it shows 55 per cent: up to 53 litres."),
        "{text}"
    );
    assert_eq!((fresh.add_lower, fresh.add_upper), (Some(7_500), Some(52_500)));
    let long = row(&engine, 20, "fresh").do_text.unwrap();
    assert!(
        long.starts_with("Fill it up first")
            && long.contains("Not even full is enough: it then lasts about 4 to 7 days"),
        "{long}"
    );
}

#[test]
fn of_two_waste_tanks_either_may_take_all_of_it() {
    let mut engine = coach();
    told(&mut engine, &HABITS);
    let page = engine.stay(3, &at(0)).unwrap();
    let waste: Vec<_> = page.rows.iter().filter(|row| row.id.contains("waste")).collect();
    assert_eq!(waste.len(), 2);
    for row in waste {
        // Cooking and washing of two, at most 24 L a day, and 6 L of showers.
        assert_eq!((row.used_lower, row.used_upper), (Some(0), Some(90_000)), "{}", row.id);
        assert_eq!(row.holds, Some(Holds::Perhaps), "{}", row.id);
    }
}

#[test]
fn what_is_used_on_the_road_alone_is_left_out() {
    let page = coach().stay(1, &at(0)).unwrap();
    assert!(page.rows.iter().all(|row| row.id != "starter") && page.rows.len() > 4);
}

#[test]
fn a_longer_stay_never_holds_better() {
    let mut engine = coach();
    told(&mut engine, &HABITS);
    engine.enter_reading("fresh", GaugeUnit::Percent, 60.0, &at(0)).unwrap();
    let holds: Vec<_> =
        (1..=12).map(|nights| row(&engine, nights, "fresh").holds.unwrap()).collect();
    assert!(holds.is_sorted_by(|one, next| one >= next), "{holds:?}");
    assert_eq!((holds[0], holds[11]), (Holds::Yes, Holds::No));
    // What is known holds, but not everything is known.
    assert_eq!(engine.stay(12, &at(0)).unwrap().holds, Some(Holds::No));
}

#[test]
fn a_number_is_taken_back_forgotten_and_told_again() {
    let mut engine = coach();
    let value = |engine: &Engine| {
        let rows = engine.figures(&at(9)).unwrap();
        rows.into_iter().find(|row| row.id == "people").unwrap().value
    };
    assert_eq!(value(&engine), None);
    engine.tell_figure("people", Some(3.0), &at(1)).unwrap();
    let second = engine.tell_figure("people", Some(2.0), &at(2)).unwrap();
    assert_eq!(value(&engine), Some(2.0));
    engine.take_back(&second.entries, &at(3)).unwrap();
    assert_eq!(value(&engine), Some(3.0));
    engine.tell_figure("people", None, &at(4)).unwrap();
    assert_eq!(value(&engine), None);
    let log = engine.log(3).unwrap();
    let said: Vec<_> = log.iter().map(|row| row.text.as_str()).collect();
    assert_eq!(said[0], "Said: People on board: not known");
    assert!(said[1].starts_with("Taken back: Said: People on board: 2 people"), "{said:?}");
}

#[test]
fn a_number_that_cannot_be_is_refused_with_what_can() {
    let mut engine = demo();
    for (id, value) in [("people", 0.0), ("people", 1.5), ("people", 13.0), ("people", f64::NAN)] {
        let refused = engine.tell_figure(id, Some(value), &at(1)).unwrap_err();
        assert_eq!(
            refused.to_string(),
            "People on board: expected 1 to 12, in steps of 1",
            "{value}"
        );
    }
    // This vehicle has no shower.
    let refused = engine.tell_figure("shower_l", Some(10.0), &at(1)).unwrap_err();
    assert!(matches!(refused, Error::NotFound { kind: "figure", .. }));
    for nights in [i64::MIN, 0, 61] {
        assert!(matches!(engine.stay(nights, &at(1)), Err(Error::InvalidInput { .. })), "{nights}");
    }
}

#[test]
fn habits_never_change_what_is_believed() {
    let mut engine = coach();
    let before = engine.things(&at(MIN)).unwrap();
    told(&mut engine, &HABITS);
    assert_eq!(engine.things(&at(MIN)).unwrap(), before);
}
