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

/// 100 Ah of lead from half, 30 Ah a day in and 10 out, ten hours of sun. At best 60 % count at the start of an
/// evening: 10 to 70 % at 20 a day, then 30 at 20, as 43 could go in slowly. At worst 20 at 20, then 30 % at
/// 15 that go in slowly less 10.
#[test]
fn days_of_sun_until_a_lead_battery_is_full() {
    let sun = |from: f64, gained: f64, drawn: f64| {
        let day = Day { drawn_ah: exactly(drawn), gained_ah: exactly(gained) };
        charge_days(Chemistry::Agm, exactly(100.0), exactly(from), day, exactly(10.0))
    };
    let takes = sun(0.5, 30.0, 10.0);
    near(takes.least.unwrap(), 10.0 / 20.0 + 30.0 / 20.0);
    assert_eq!(takes.most, Some(7.0), "1 + 30 / 5");
    // What is drawn at night comes in at first: of an evening it is full, and is not so for certain.
    near(sun(0.95, 10.0, 12.0).least.unwrap(), 0.5);
    assert_eq!(sun(0.95, 10.0, 12.0).most, None);
    assert_eq!(sun(0.5, 10.0, 12.0), ByDays { least: None, most: None });
    assert_eq!(sun(1.0, 10.0, 2.0), ByDays { least: Some(0.0), most: Some(0.0) });
    assert_eq!(sun(0.0, 1.0, 0.0), ByDays { least: Some(f64::from(NIGHTS_MAX)), most: None });
}

/// Whatever of the band is so, it is full neither before the least nor after the most: by the hour, with
/// twelve of sun; a day of sun counts as far as it shines.
#[test]
fn the_days_of_sun_hold_what_an_hourly_balance_gives() {
    let (cap, from) = (Between::of(80.0, 100.0), Between::of(0.4, 0.5));
    let day = Day { drawn_ah: Between::of(4.0, 6.0), gained_ah: Between::of(30.0, 45.0) };
    for chemistry in [Chemistry::Agm, Chemistry::Lifepo4] {
        let found = charge_days(chemistry, cap, from, day, exactly(12.0));
        let (least, most) = (found.least.unwrap(), found.most.unwrap());
        let takes = acceptance(chemistry);
        for (cap, from, gained, drawn, rest_h) in [
            (80.0, 0.5, 45.0, 4.0, takes.rest_h.lower),
            (100.0, 0.4, 30.0, 6.0, takes.rest_h.upper),
            (90.0, 0.45, 37.0, 5.0, takes.rest_h.middle()),
        ] {
            let (mut level, mut hours, mut sunny): (f64, f64, f64) = (from, 0.0, 0.0);
            while level < 1.0 - 1e-9 && hours < 24.0 * 40.0 {
                let shines = hours.rem_euclid(24.0) < 12.0;
                let comes: f64 =
                    if shines { gained / 12.0 / cap } else { 0.0 } - drawn / 24.0 / cap;
                let slow = (1.0 - takes.all_to) / rest_h;
                level += if level >= takes.all_to { f64::min(comes, slow) } else { comes };
                hours += 1.0;
                sunny += f64::from(u8::from(shines));
            }
            let days = sunny / 12.0;
            assert!((least..=most).contains(&days), "{days} {found:?}");
        }
    }
}
