//! What was read days ago, in the questions that rest on it.

use super::at;
use crate::engine::{Engine, GaugeUnit, Pick, Reckoning};

const DAY: i64 = 24 * 60;

fn demo(id: &str) -> Engine {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo(id, &at(0)).unwrap();
    engine
}

fn ask(engine: &Engine, question: &str, picks: &[(&str, &str)], minute: i64) -> Reckoning {
    let pick =
        |(choice, value): &(&str, &str)| Pick { choice: (*choice).into(), value: (*value).into() };
    let picks: Vec<_> = picks.iter().map(pick).collect();
    engine.reckon(question, &picks, &at(minute)).unwrap()
}

#[track_caller]
fn band(page: &Reckoning, id: &str) -> (f64, f64) {
    let line = page.parts.iter().flat_map(|part| &part.lines).find(|line| line.id == id);
    line.and_then(|line| line.lower.zip(line.upper)).unwrap_or_else(|| panic!("no {id}: {page:?}"))
}

/// By hand: a waste tank of 100 L that shows 0, give or take 5 per cent, holds at most 5 L. A week later with the
/// pump on it may have filled to its brim, whether or not people told what they use.
#[test]
fn a_tank_read_a_week_ago_weighs_what_may_have_come_since() {
    let mut engine = demo("c");
    for (figure, value) in [
        ("people_front", 2.0),
        ("people_rear", 0.0),
        ("lockers_kg", 120.0),
        ("garage_kg", 150.0),
        ("rack_kg", 55.0),
    ] {
        engine.tell_figure(figure, Some(value), &at(0)).unwrap();
    }
    for (variable, setting) in
        [("pump.power", "on"), ("engine.wheels", "still"), ("pitch.ground", "level")]
    {
        engine.report(variable, setting, &at(0)).unwrap();
    }
    engine.enter_reading("waste", GaugeUnit::Percent, 0.0, &at(1)).unwrap();
    let waste = |engine: &Engine, minute| {
        band(&ask(engine, "load", &[("fuel", "80")], minute), "waste")
    };
    assert_eq!(waste(&engine, 2), (0.0, 5.0));
    assert_eq!(waste(&engine, 1 + 7 * DAY), (0.0, 100.0));
    // Two people at 10 L a day and more fill it beyond where it counts as full.
    for (figure, value) in [("people", 2.0), ("showers_a_day", 2.0), ("shower_l", 12.0)] {
        engine.tell_figure(figure, Some(value), &at(2)).unwrap();
    }
    let (least, most) = waste(&engine, 1 + 7 * DAY);
    assert!(least >= 0.0 && (most - 100.0).abs() < 1e-9, "{least} {most}");
    // What it showed at the least does not go by itself.
    engine.enter_reading("waste", GaugeUnit::Percent, 40.0, &at(3)).unwrap();
    assert!(waste(&engine, 3 + 7 * DAY).0 >= 35.0);
}
