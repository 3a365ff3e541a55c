//! What is used and how long it lasts, from readings as an owner enters them.

use super::{MIN, at, changed, demo, tell};
use crate::clock::{Monotonic, Stamp};
use crate::engine::{Engine, GaugeUnit, ReserveRow};

const DAY: i64 = 24 * 60;

fn read(engine: &mut Engine, lamps: f64, now: &Stamp) -> Vec<String> {
    engine.enter_reading("fresh", GaugeUnit::Lamps, lamps, now).unwrap().warnings
}

fn row(engine: &Engine, id: &str, now: &Stamp) -> ReserveRow {
    engine.reserves(now).unwrap().rows.into_iter().find(|row| row.id == id).unwrap()
}

/// The fresh tank of 100 L, lamps at 5, 33, 66 and 95 per cent, two per cent out at most, empty below
/// two litres. By hand: four lamps are 93 to 100 litres, two are 31 to 68, so 25 to 69 litres went in
/// a day, and 29 to 66 litres are left to use.
fn a_day_apart() -> Engine {
    let mut engine = demo();
    read(&mut engine, 4.0, &at(1));
    read(&mut engine, 2.0, &at(1 + DAY));
    engine
}

#[test]
fn two_readings_a_day_apart_give_a_range() {
    let engine = a_day_apart();
    let row = row(&engine, "fresh", &at(1 + DAY));
    assert_eq!(row.seen_text.as_deref(), Some("2 lit"));
    assert_eq!(row.between_text.as_deref(), Some("between 31 and 68 litres"));
    assert_eq!(row.used_text.as_deref(), Some("about 25 to 69 litres a day"));
    assert_eq!(row.left_text.as_deref(), Some("about 10 hours to 3 days"));
    assert_eq!((row.left_lower_h, row.left_upper_h), (Some(10), Some(64)));
    assert!(row.seen_counts && row.first && row.missing.is_empty());
}

#[test]
fn nothing_is_made_up_before_there_are_two_readings() {
    let mut engine = demo();
    for text in ["Nothing was read yet", "Seen once"] {
        let row = row(&engine, "fresh", &at(2));
        // The trip of the demonstration has told the level by word alone.
        assert!(row.used_text.is_none() && row.left_text.is_none(), "{text}");
        assert!(row.missing[0].starts_with("Seen once"), "{:?}", row.missing);
        read(&mut engine, 4.0, &at(2));
    }
    let row = row(&engine, "battery", &at(2));
    assert_eq!((row.seen_text, row.used_lower_per_day), (None, None));
    assert!(row.missing[0].starts_with("Nothing was read yet"), "{:?}", row.missing);
    let page = engine.reserves(&at(2)).unwrap();
    assert!(
        page.first_text.starts_with("What runs out first is not known yet"),
        "{}",
        page.first_text
    );
}

#[test]
fn readings_that_lie_close_together_are_too_few() {
    let mut engine = demo();
    read(&mut engine, 4.0, &at(1));
    read(&mut engine, 2.0, &at(1 + 5 * 60));
    let row = row(&engine, "fresh", &at(1 + 5 * 60));
    assert_eq!(row.used_text, None);
    assert!(row.missing[0].contains("cover only 5 h."), "{:?}", row.missing);
}

#[test]
fn a_fill_starts_anew_and_the_average_so_far_stays() {
    let mut engine = a_day_apart();
    tell(&mut engine, &[("fill_hose.hose", "connected"), ("pitch.water", "tap")], &at(2 + DAY));
    engine.open_run("serviced/water", &at(2 + DAY)).unwrap();
    engine.tick("fresh.start_filling", &at(3 + DAY)).unwrap();
    engine.tick("fresh.end_filling", &at(13 + DAY)).unwrap();
    let full = row(&engine, "fresh", &at(13 + DAY));
    assert_eq!(full.used_text.as_deref(), Some("about 25 to 69 litres a day"));
    assert_eq!(full.between_text.as_deref(), Some("between 90 and 100 litres"));
    // A reading soon after adds a filling of its own and takes nothing across the fill.
    read(&mut engine, 4.0, &at(14 + DAY));
    let after = row(&engine, "fresh", &at(14 + DAY));
    assert_eq!(after.used_lower_per_day, Some(25_001), "93 000 less 67 999 mL in 24 h");
}

#[test]
fn a_rise_starts_anew_though_nobody_said_that_it_was_filled() {
    let mut engine = changed("a coach-built", "one");
    read(&mut engine, 2.0, &at(1));
    read(&mut engine, 3.0, &at(1 + DAY));
    let row = row(&engine, "fresh", &at(1 + DAY));
    assert_eq!(row.used_text, None);
    assert!(row.missing[0].starts_with("Seen once since it was last filled"), "{:?}", row.missing);
}

#[test]
fn a_reading_that_does_not_count_says_why_and_changes_no_number() {
    let mut engine = a_day_apart();
    let before = row(&engine, "fresh", &at(1 + DAY));
    tell(&mut engine, &[("engine.wheels", "moving")], &at(2 + DAY));
    read(&mut engine, 0.0, &at(2 + DAY));
    let row = row(&engine, "fresh", &at(2 + DAY));
    assert!(!row.seen_counts);
    assert_eq!(row.seen_text.as_deref(), Some("none lit"));
    let note = row.seen_note.unwrap();
    assert!(note.contains("the vehicle moves"), "{note}");
    assert_eq!(row.used_text, before.used_text);
    assert_eq!(row.between_text, before.between_text);
    let line = engine.log(1).unwrap().remove(0);
    assert_eq!(line.text, format!("Read: Fresh tank: none lit ({note})"));
}

#[test]
fn a_reading_that_is_taken_back_counts_no_more() {
    let mut engine = a_day_apart();
    let last = engine.log(1).unwrap()[0].entry;
    engine.unmark(last, &at(2 + DAY)).unwrap();
    let row = row(&engine, "fresh", &at(2 + DAY));
    assert_eq!((row.used_text, row.seen_text.as_deref()), (None, Some("4 lit")));
}

/// Rule 22: where the clock ran back no age is known, and nothing is counted across it.
#[test]
fn a_clock_that_ran_back_leaves_the_readings_apart_and_says_so() {
    let mut engine = demo();
    read(&mut engine, 4.0, &at(1 + 2 * DAY));
    read(&mut engine, 2.0, &at(1 + DAY));
    let row = row(&engine, "fresh", &at(1 + DAY));
    assert_eq!((&row.used_text, &row.left_text), (&None, &None));
    assert!(row.missing[0].starts_with("The clock was changed"), "{:?}", row.missing);
    // Whatever ran it back: here an entry about something else, between two readings.
    let mut engine = demo();
    read(&mut engine, 4.0, &at(1));
    engine.note("a note", &at(-5)).unwrap();
    read(&mut engine, 2.0, &at(1 + DAY));
    assert!(super::reserve::row(&engine, "fresh", &at(1 + DAY)).missing[0].contains("clock"));
}

#[test]
fn after_a_restart_what_lasts_waits_for_a_reading() {
    let both = |min: i64, start: i64, boot: &str| Stamp {
        monotonic: Some(Monotonic { ms: start * MIN, boot: boot.to_owned() }),
        ..at(min)
    };
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo("a", &both(0, 600, "one")).unwrap();
    read(&mut engine, 4.0, &both(1, 601, "one"));
    read(&mut engine, 2.0, &both(1 + DAY, 601 + DAY, "one"));
    let now = both(2 + DAY, 1, "two");
    let row = row(&engine, "fresh", &now);
    assert_eq!(row.used_text.as_deref(), Some("about 25 to 69 litres a day"), "as it was");
    assert_eq!(row.left_text, None);
    assert!(row.missing[0].starts_with("How long ago it was read is not known"));
    read(&mut engine, 2.0, &now);
    let row = super::reserve::row(&engine, "fresh", &now);
    assert_eq!(row.left_text.as_deref(), Some("about 10 hours to 3 days"));
    assert!(row.missing[0].contains("does not count with what came after"), "{:?}", row.missing);
}

#[test]
fn where_two_ranges_overlap_both_are_said() {
    let mut engine = demo();
    for (lit, now) in [(4.0, at(2)), (2.0, at(2 + DAY))] {
        read(&mut engine, lit, &now);
        engine.enter_reading("waste", GaugeUnit::Lamps, 0.0, &now).unwrap();
    }
    let page = engine.reserves(&at(2 + DAY)).unwrap();
    let first: Vec<_> = page.rows.iter().filter(|row| row.first).map(|row| &*row.id).collect();
    assert_eq!(first, ["fresh", "waste"]);
    assert!(page.first_text.starts_with("One of these comes first. Most likely: "), "{page:?}");
    assert!(page.first_text.ends_with(" per cent."), "{page:?}");
    assert_eq!(page.firsts.len(), 2, "{:?}", page.firsts);
    assert!(page.firsts[0].starts_with("Fresh tank empty, "), "{:?}", page.firsts);
    assert!(page.unknown.contains(&"Leisure battery".to_owned()), "{:?}", page.unknown);
    assert!(!page.unknown.contains(&"Fresh tank".to_owned()));
}

#[test]
fn quantities_are_imperial_once_that_is_set_and_stay_so() {
    let mut engine = a_day_apart();
    assert_eq!(engine.units(), "metric");
    engine.set_units("imperial").unwrap();
    let imperial = row(&engine, "fresh", &at(1 + DAY));
    // 31 and 68 L are 6.82 and 14.96 gallons; 25 and 69 L a day are 5.5 and 15.2.
    assert_eq!(imperial.between_text.as_deref(), Some("between 6 and 15 gallons"));
    assert_eq!(imperial.used_text.as_deref(), Some("about 5 to 16 gallons a day"));
    assert_eq!(imperial.left_text.as_deref(), Some("about 10 hours to 3 days"));
    assert!(engine.set_units("cubits").is_err());
    let text = engine.export_text().unwrap();
    let mut other = Engine::in_memory("en").unwrap();
    other.import(text.as_bytes(), "kept.json", &at(0)).unwrap();
    assert_eq!(other.units(), "imperial");
    let card = engine.card("boiler", &at(0)).unwrap();
    let card = format!("{:?}", card.sections);
    assert!(!card.contains("litre"), "{card}");
}

#[test]
fn a_battery_that_was_charged_in_between_starts_anew() {
    let mut engine = demo();
    let rested = |engine: &mut Engine, volts: f64, now: i64| {
        tell(engine, &[("mains_switch.lever", "off"), ("battery.load", "little")], &at(now));
        engine.enter_reading("battery", GaugeUnit::Volts, volts, &at(now + 4 * 60)).unwrap()
    };
    tell(&mut engine, &[("engine.running", "off"), ("engine.wheels", "still")], &at(0));
    assert!(rested(&mut engine, 12.75, 1).warnings[0].contains("The reading gives"));
    rested(&mut engine, 12.45, 1 + DAY);
    let used = row(&engine, "battery", &at(5 * 60 + DAY));
    assert!(used.used_text.as_deref().unwrap_or_default().ends_with("per cent a day"), "{used:?}");
    tell(&mut engine, &[("mains_switch.lever", "on")], &at(6 * 60 + DAY));
    rested(&mut engine, 12.4, 1 + 2 * DAY);
    let after = row(&engine, "battery", &at(5 * 60 + 2 * DAY));
    assert_eq!(after.used_lower_per_day, used.used_lower_per_day, "nothing across the charging");
}
