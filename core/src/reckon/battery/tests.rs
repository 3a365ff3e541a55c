//! A battery ahead, by hand.

use super::*;
use crate::reckon::Between;

fn exactly(value: f64) -> Between {
    Between::exactly(value)
}

#[track_caller]
fn near(ours: f64, theirs: f64) {
    assert!((ours - theirs).abs() < 1e-6, "ours {ours}, by hand {theirs}");
}

fn lead(exponent: f64) -> Capacity {
    Capacity { ah: 100.0, rated_h: 20.0, exponent: exactly(exponent) }
}

fn load(current_a: f64, hours: f64) -> Load {
    Load { current_a: exactly(current_a), hours }
}

#[test]
fn below_the_rated_current_a_battery_gives_what_its_plate_says_and_no_more() {
    let day = drawn_ah(&[load(1.0, 10.0), load(2.0, 5.0)], &lead(1.3));
    near(day.lower, 20.0);
    near(day.upper, 20.0);
}

/// 5 A are the rated current. Alone 6 A for 2 h count for 12 × 1.2^0.2 Ah, together with 4 A for 10 A.
#[test]
fn what_runs_together_costs_more_than_one_after_the_other() {
    let day = drawn_ah(&[load(4.0, 3.0), load(6.0, 2.0)], &lead(1.2));
    near(day.lower, 24.0);
    near(day.upper, 2.0 * 10.0 * libm::pow(2.0, 0.2) + 4.0);
}

#[test]
fn an_inverter_costs_what_it_loses_and_what_it_takes_by_itself() {
    let takes = inverted_w(93.0, 10.0);
    near(takes.lower, 110.0);
    near(takes.upper, 93.0 / 0.8 + 10.0);
}

#[test]
fn the_exponent_of_a_plate_with_two_capacities_follows() {
    // 100 Ah in 20 h, 80 Ah in 5 h: 5 A and 16 A.
    let found = exponent_of((5.0, 20.0), (16.0, 5.0)).unwrap();
    near(hours(100.0, 20.0, found, 16.0).unwrap(), 5.0);
    assert_eq!(exponent_of((5.0, 20.0), (5.0, 10.0)), None);
    assert_eq!(hours(100.0, 20.0, 1.2, 0.0), None);
}

/// 100 Ah, full, floor at a half, 20 Ah a day: two nights and a half.
#[test]
fn the_nights_are_those_that_it_holds_through() {
    let day = Day { drawn_ah: exactly(20.0), gained_ah: exactly(0.0) };
    let ahead = ahead(exactly(100.0), exactly(1.0), floor(Chemistry::Flooded), day);
    for run in [&ahead.lower, &ahead.middle, &ahead.upper] {
        near(run.days.unwrap(), 2.5);
        assert_eq!(run.nights(), 2);
        assert_eq!(run.levels.len(), 4);
    }
}

#[test]
fn where_the_sun_brings_as_much_there_is_no_end_unless_a_night_is_too_long() {
    let runs = |drawn: f64| {
        let day = Day { drawn_ah: exactly(drawn), gained_ah: exactly(drawn) };
        ahead(exactly(100.0), exactly(0.8), 0.5, day)
    };
    assert_eq!(runs(20.0).lower.days, None);
    assert_eq!(runs(20.0).lower.nights(), NIGHTS_MAX);
    near(runs(40.0).lower.days.unwrap(), 0.75);
    assert_eq!(runs(40.0).upper.days, None);
}

#[test]
fn at_its_floor_nothing_is_left() {
    let day = Day { drawn_ah: exactly(20.0), gained_ah: exactly(5.0) };
    let ahead = ahead(exactly(100.0), exactly(0.5), 0.5, day);
    assert_eq!([ahead.lower.nights(), ahead.upper.nights()], [0, 0]);
    near(ahead.upper.days.unwrap(), 0.0);
}

#[test]
fn cold_bears_on_lead_for_certain_and_on_lithium_perhaps() {
    let cold = exactly(-10.0);
    assert!(warmth(Chemistry::Gel, cold).upper < 0.65);
    near(warmth(Chemistry::Lifepo4, cold).upper, 1.0);
    near(warmth(Chemistry::Flooded, exactly(25.0)).lower, 1.0);
}

/// 100 Ah from half, 20 A of which 80 to 95 % stay: 20 Ah to 70 % in 1.05 to 1.25 h, then 7 to 10 h.
#[test]
fn a_lead_battery_takes_all_to_seven_tenths_and_then_holds_back() {
    let takes = |to: f64| {
        charge_h(Chemistry::Agm, exactly(100.0), exactly(0.5), to, exactly(20.0)).unwrap()
    };
    near(takes(0.7).lower, 20.0 / 19.0);
    near(takes(0.7).upper, 20.0 / 16.0);
    near(takes(1.0).lower, 20.0 / 19.0 + 7.0);
    near(takes(1.0).upper, 20.0 / 16.0 + 10.0);
}

/// A weak source is never held back: 2 A bring 100 Ah of which all stays in no less than 50 h.
#[test]
fn a_weak_source_takes_as_long_as_its_current_says() {
    let takes = |amps: f64| {
        charge_h(Chemistry::Lifepo4, exactly(100.0), exactly(0.0), 1.0, exactly(amps)).unwrap()
    };
    near(takes(2.0).lower, 50.0);
    let level = level_after(Chemistry::Lifepo4, exactly(100.0), exactly(0.0), 10.0, exactly(2.0));
    near(level.upper, 0.2);
}
