//! What ends first, on the demo vehicles.

use super::{at, demo};
use crate::engine::{Engine, GaugeUnit, Mark, Pick, Reckoning, ReckoningLine};

const DAY: i64 = 24 * 60;

/// Vehicle (a), of which two people told of themselves; the four lamps of its fresh tank are lit.
fn told() -> Engine {
    let mut engine = demo();
    engine.tell_figure("people", Some(2.0), &at(0)).unwrap();
    read(&mut engine, 4.0, 1);
    engine
}

fn read(engine: &mut Engine, lamps: f64, minutes: i64) {
    engine.enter_reading("fresh", GaugeUnit::Lamps, lamps, &at(minutes)).unwrap();
}

fn asked(engine: &Engine, picks: &[&str], minutes: i64) -> Reckoning {
    let pick = |value: &&str| Pick { choice: "change".to_owned(), value: (*value).to_owned() };
    engine.reckon("first", &picks.iter().map(pick).collect::<Vec<_>>(), &at(minutes)).unwrap()
}

#[track_caller]
fn line(page: &Reckoning, id: &str) -> ReckoningLine {
    let mut lines = page.parts.iter().flat_map(|part| &part.lines);
    lines.find(|line| line.id == id).unwrap_or_else(|| panic!("{id}: {page:?}")).clone()
}

fn ends(line: &ReckoningLine) -> (f64, f64) {
    (line.lower.unwrap(), line.upper.unwrap())
}

#[test]
fn before_anything_is_told_each_reserve_is_named_as_missing() {
    let page = asked(&demo(), &[], 1);
    assert_eq!(page.mark, None);
    assert!(
        page.verdict_text.starts_with("What ends first is not known yet"),
        "{}",
        page.verdict_text
    );
    for what in ["Fresh tank", "Waste tank", "battery"] {
        assert!(page.missing.iter().any(|said| said.contains(what)), "{what}: {:?}", page.missing);
    }
    assert!(page.choices.is_empty());
}

#[test]
fn what_is_not_known_is_named_and_no_chance_over_all_is_claimed() {
    let page = asked(&told(), &[], 1);
    assert!(page.verdict_text.contains("not known, and may come before"), "{}", page.verdict_text);
    assert_ne!(page.mark, Some(Mark::Fine), "something else may come before");
    let fresh = line(&page, "fresh");
    let detail = fresh.detail.unwrap();
    assert!(!detail.contains("First with a chance"), "{detail}");
    assert!(page.missing.iter().any(|said| said.contains("battery")), "{:?}", page.missing);
}

/// By hand: two people use 15 to 30 litres a day; four lamps are 93 to 100 litres, of which it is empty
/// below 2: so 3 to 6.5 days for averages, and more either way for single days that differ.
#[test]
fn the_days_of_the_fresh_tank_are_about_those_by_hand() {
    let (lower, upper) = ends(&line(&asked(&told(), &[], 1), "fresh"));
    assert!((2.3..3.2).contains(&lower) && (6.0..7.5).contains(&upper), "{lower} {upper}");
}

/// After a day two lamps are lit: 25 to 69 litres went, more than was published.
#[test]
fn its_own_readings_move_the_forecast() {
    let mut engine = told();
    let before = line(&asked(&engine, &[], 1), "fresh");
    read(&mut engine, 2.0, 1 + DAY);
    read(&mut engine, 4.0, 2 + DAY);
    let after = line(&asked(&engine, &[], 2 + DAY), "fresh");
    assert!(ends(&after).0 < ends(&before).0 && ends(&after).1 < ends(&before).1);
    assert!(after.detail.unwrap().contains("and its readings"));
}

#[test]
fn one_person_fewer_buys_time_and_one_more_costs_it() {
    let engine = told();
    let (now, fewer) = (asked(&engine, &[], 1), asked(&engine, &["one_fewer"], 1));
    let (was, then) = (ends(&line(&now, "fresh")), ends(&line(&fewer, "fresh")));
    assert!((then.0 / was.0 - 2.0).abs() < 1e-3 && then.1 > was.1, "{was:?} {then:?}");
    assert!(line(&now, "one_fewer").text.starts_with("Buys about"));
    assert!(line(&now, "one_more").text.starts_with("Costs about"));
    // No shower is fitted, and nobody told how long the heater burns.
    let offered: Vec<_> = now.choices[0].options.iter().map(|one| one.id.as_str()).collect();
    assert_eq!(offered, ["one_fewer", "one_more"]);
}

#[test]
fn the_chart_begins_where_all_holds_and_only_falls() {
    let page = asked(&told(), &[], 1);
    let chart = page.parts.iter().find_map(|part| part.chart.clone()).unwrap();
    // The fresh tank was read now. Waste was seen between its lamps 21 minutes ago: anywhere in 86.4 of 90
    // litres, and two people use at most 30 litres a day.
    let may_have_ended = 30.0 * 21.0 / 1_440.0 / 86.4;
    let start = &chart.points[0];
    assert!(start.lower > 1.0 - may_have_ended && start.upper < 1.0, "{start:?}");
    for pair in chart.points.windows(2) {
        assert!(pair[1].middle <= pair[0].middle && pair[1].lower <= pair[1].upper);
    }
}

/// Vehicle (b), its battery read in the dark on two evenings, with the sun on its panels in between.
fn under_panels(charge: (f64, f64)) -> Engine {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo("b", &at(0)).unwrap();
    for (what, setting) in [
        ("engine.running", "off"),
        ("engine.wheels", "still"),
        ("battery.load", "little"),
        ("battery.sun", "dark"),
        ("mains_switch.lever", "off"),
    ] {
        engine.report(what, setting, &at(1)).unwrap();
    }
    for (volts, minutes) in [(charge.0, 8 * 60), (charge.1, 8 * 60 + DAY)] {
        engine.enter_reading("battery", GaugeUnit::Volts, volts, &at(minutes)).unwrap();
    }
    engine
}

fn grey(engine: &Engine, picks: &[(&str, &str)]) -> Reckoning {
    let pick = |(choice, value): &(&str, &str)| Pick {
        choice: (*choice).to_owned(),
        value: (*value).to_owned(),
    };
    let picks: Vec<_> = picks.iter().map(pick).collect();
    engine.reckon("first", &picks, &at(8 * 60 + DAY)).unwrap()
}

#[test]
fn without_place_or_sky_a_grey_day_is_not_reckoned_but_asked_for() {
    let engine = under_panels((13.4, 13.3));
    let lacks = |page: &Reckoning| {
        page.missing.iter().filter(|one| one.starts_with("For a grey day")).count()
    };
    for picks in [&[][..], &[("latitude", "48")], &[("sky", "broken")]] {
        let page = grey(&engine, picks);
        assert!(page.choices.iter().all(|one| one.id != "change"), "{picks:?}");
        assert_eq!(lacks(&page), 1, "{picks:?}: {:?}", page.missing);
    }
    assert_eq!(lacks(&grey(&engine, &[("latitude", "48"), ("sky", "clear")])), 0);
}

/// At any place, under any sky, whatever was read.
#[test]
fn a_grey_day_never_lengthens_what_lasts() {
    for charge in [(13.5, 13.4), (13.4, 13.3), (13.3, 13.25)] {
        let engine = under_panels(charge);
        for latitude in ["-60", "-35", "0", "48", "68"] {
            for sky in ["clear", "broken"] {
                let place = [("latitude", latitude), ("sky", sky)];
                let now = grey(&engine, &place);
                let offered = now.choices.iter().any(|one| one.id == "change");
                if !offered {
                    continue;
                }
                let picks = [&place[..], &[("change", "grey_day")]].concat();
                let page = grey(&engine, &picks);
                let open = |line: &ReckoningLine| line.upper.unwrap_or(f64::INFINITY);
                let no_longer = |then: &ReckoningLine, was: &ReckoningLine| {
                    then.lower <= was.lower && open(then) <= open(was)
                };
                let what_if = line(&now, "grey_day");
                assert!(no_longer(&line(&page, "battery"), &line(&now, "battery")));
                assert!(no_longer(&what_if, &line(&now, "all")), "{what_if:?}");
                assert!(no_longer(&line(&page, "all"), &what_if), "{what_if:?}");
            }
        }
    }
    let sure = grey(&under_panels((13.4, 13.3)), &[("latitude", "48"), ("sky", "clear")]);
    assert!(sure.choices.iter().any(|one| one.id == "change"), "it is offered at all");
}
