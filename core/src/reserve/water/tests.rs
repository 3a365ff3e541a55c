use super::*;
use crate::clock::Stamp;
use crate::reserve::lasting::{Seen, Used, lasting};

const DAY_MS: i64 = 86_400_000;

/// Sphere handbook 2011, table of basic survival water needs, as on a university's course page: 7.5 to
/// 15 L per person and day in all.
#[test]
fn the_published_parts_add_up_to_the_published_total() {
    let one = Habits { people: Some(1), showers_milli: Some(0), ..Habits::default() };
    assert_eq!(total(&fresh(&one).unwrap()), (7_500, 15_000));
}

/// Two people at 1.2 L of urine and 0.12 L of faeces each (WHO 1992, chapter 5), four flushes of 0.3 L
/// each: 5.04 L a day, and a cassette of 17 L lasts 3.4 days.
#[test]
fn a_cassette_fills_as_the_design_figures_say() {
    let two = Habits {
        people: Some(2),
        flushes_milli: Some(4_000),
        flush_ml: Some(300),
        ..Habits::default()
    };
    let (_, most) = total(&cassette(&two).unwrap());
    assert_eq!(most, 5_040);
    let rate = Used { lower: most, upper: most, over_ms: DAY_MS };
    let empty = Seen { at: Stamp::utc(0), lower: 17_000, upper: 17_000 };
    let lasts_ms = lasting(&rate, &empty, &Stamp::utc(0)).unwrap().lower_ms;
    assert_eq!(lasts_ms * 10 / DAY_MS, 33, "3.37 days");
}

#[test]
fn what_was_not_said_is_named_and_nothing_is_made_up() {
    let none = Habits { flush_from_fresh: true, ..Habits::default() };
    assert_eq!(fresh(&none), Err(vec![Unsaid::People, Unsaid::Showers, Unsaid::Flushes]));
    assert_eq!(waste(&none), Err(vec![Unsaid::People, Unsaid::Showers]));
    assert_eq!(cassette(&none), Err(vec![Unsaid::People, Unsaid::Flushes]));
    let some = Habits { people: Some(2), showers_milli: Some(500), ..none };
    assert_eq!(waste(&some), Err(vec![Unsaid::Shower]));
}

#[test]
fn nobody_is_asked_what_a_shower_takes_that_nobody_takes() {
    let none = Habits { people: Some(3), showers_milli: Some(0), ..Habits::default() };
    assert_eq!(fresh(&none).map(|uses| uses.len()), Ok(4));
}
