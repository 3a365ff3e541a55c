//! What to fill or empty soon, told in time.

use super::{MIN, at, demo, tell};
use crate::clock::{Monotonic, Stamp};
use crate::engine::{Engine, GaugeUnit, NowPage};
use crate::error::Error;

const H: i64 = 60;
const DAY: i64 = 24 * H;

/// Four lamps, and a day later two: 25 to 69 litres went, and 29 to 66 are left to use. By hand: the
/// lower end lies 10 h 6 min ahead, for 29 000 mL at 69 000 mL in 24 h.
fn a_day_apart() -> Engine {
    let mut engine = demo();
    engine.enter_reading("fresh", GaugeUnit::Lamps, 4.0, &at(1)).unwrap();
    engine.enter_reading("fresh", GaugeUnit::Lamps, 2.0, &at(1 + DAY)).unwrap();
    engine
}

fn page(engine: &Engine, now: &Stamp) -> NowPage {
    engine.now_page(now).unwrap()
}

fn ids(page: &NowPage) -> Vec<&str> {
    page.reminders.iter().map(|row| row.id.as_str()).collect()
}

#[test]
fn a_tank_that_may_run_out_within_the_hours_that_were_named_is_told_with_when() {
    let mut engine = a_day_apart();
    let now = at(1 + DAY);
    let left_h =
        engine.reserves(&now).unwrap().rows.iter().find_map(|row| row.left_lower_h).unwrap();
    assert_eq!(left_h, 10);
    let told = page(&engine, &now);
    assert_eq!(ids(&told), ["fresh"]);
    let row = &told.reminders[0];
    assert_eq!(row.do_text, "Fresh tank: fill it");
    assert_eq!(row.about_text, "How long it lasts: about 10 hours to 3 days.");
    let by = row.by_utc_ms.unwrap() - now.utc_ms;
    assert!((10 * H * MIN..11 * H * MIN).contains(&by), "{by}");

    engine.set_remind_h(6).unwrap();
    let early = page(&engine, &now);
    assert!(early.reminders.is_empty());
    let next = early.remind_utc_ms.unwrap();
    assert_eq!(next, row.by_utc_ms.unwrap() - 6 * H * MIN, "six hours before");
    let just_before = Stamp::utc(next - 1);
    assert_eq!(page(&engine, &just_before).remind_utc_ms, Some(next), "it stays where it was told");
    assert!(page(&engine, &just_before).reminders.is_empty());
    assert_eq!(ids(&page(&engine, &Stamp::utc(next))), ["fresh"]);
}

#[test]
fn what_may_have_run_out_already_is_to_be_seen_to_now() {
    let row = &page(&a_day_apart(), &at(1 + 2 * DAY)).reminders[0];
    assert_eq!((row.by_utc_ms, row.do_text.as_str()), (None, "Fresh tank: fill it"));
    assert_eq!(row.about_text, "How long it lasts: 40 hours at most.");
}

#[test]
fn a_filled_tank_is_told_of_no_more() {
    let mut engine = a_day_apart();
    engine.enter_reading("fresh", GaugeUnit::Lamps, 4.0, &at(2 + DAY)).unwrap();
    let told = page(&engine, &at(2 + DAY));
    assert!(told.reminders.is_empty() && told.remind_utc_ms.is_some(), "{told:?}");
}

#[test]
fn never_is_never_and_hours_out_of_range_are_refused() {
    let mut engine = a_day_apart();
    assert_eq!(engine.remind_h(), 24);
    engine.set_remind_h(0).unwrap();
    let told = page(&engine, &at(1 + DAY));
    assert!(told.reminders.is_empty() && told.remind_utc_ms.is_none());
    for hours in [-1, 169, i64::MAX] {
        let refused = engine.set_remind_h(hours);
        assert!(matches!(refused, Err(Error::InvalidInput { .. })), "{refused:?}");
    }
    assert_eq!(engine.remind_h(), 0);
    engine.set_remind_h(18).unwrap();
    let choices = engine.remind_choices().unwrap();
    let offered: Vec<_> = choices.iter().map(|one| (one.hours, one.chosen)).collect();
    let (yes, no) = (true, false);
    assert_eq!(offered, [(0, no), (6, no), (12, no), (18, yes), (24, no), (48, no)]);
    assert_eq!((&*choices[0].text, &*choices[3].text), ("Never", "18 hours before"));
}

#[test]
fn a_cassette_and_a_waste_tank_are_told_of_by_what_people_said_of_themselves() {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo("c", &at(0)).unwrap();
    let toilet = engine.reserves(&at(1)).unwrap().rows;
    let toilet = toilet.iter().find(|row| row.title.contains("oilet")).unwrap().id.clone();
    assert!(page(&engine, &at(1)).reminders.is_empty(), "nothing was said yet");
    for (figure, value) in [("people", 4.0), ("flushes_a_day", 6.0), ("flush_l", 0.5)] {
        engine.tell_figure(figure, Some(value), &at(1)).unwrap();
    }
    let told = page(&engine, &at(1));
    let row = told.reminders.iter().find(|row| row.id == toilet).unwrap();
    assert!(row.do_text.ends_with("empty the cassette"), "{}", row.do_text);
}

#[test]
fn after_a_restart_the_wall_clock_says_when_to_read_it_anew() {
    let on = |boot: &str, ms: i64, minutes: i64| Stamp {
        monotonic: Some(Monotonic { ms, boot: boot.to_owned() }),
        ..at(minutes)
    };
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo("a", &on("one", 0, 0)).unwrap();
    for (lamps, minute) in [(4.0, 1), (3.0, 1 + DAY)] {
        let now = on("one", minute * MIN, minute);
        engine.enter_reading("fresh", GaugeUnit::Lamps, lamps, &now).unwrap();
    }
    engine.set_remind_h(6).unwrap();
    let next = page(&engine, &on("one", (1 + DAY) * MIN, 1 + DAY)).remind_utc_ms.unwrap();
    let restarted = |minutes: i64| on("two", 5, minutes);
    let after = page(&engine, &restarted(2 + DAY));
    assert!(after.reminders.is_empty());
    assert_eq!(
        after.remind_utc_ms,
        Some(next),
        "an alarm that was lost is set for the same moment"
    );
    let told = page(&engine, &Stamp { utc_ms: next, ..restarted(0) });
    let row = &told.reminders[0];
    assert_eq!((row.do_text.as_str(), row.by_utc_ms), ("Fresh tank: read its gauge", None));
    assert!(row.about_text.starts_with("How long ago it was read is not known"));
    let back = page(&engine, &on("two", 5, 0));
    assert!(back.reminders.is_empty() && back.remind_utc_ms.is_none(), "the clock ran back");
}

#[test]
fn where_people_are_in_danger_or_it_is_laid_up_nothing_of_that_is_told() {
    let of = |variable: &str, setting: &str| {
        let mut engine = Engine::in_memory("en").unwrap();
        engine.add_demo("c", &at(0)).unwrap();
        for (figure, value) in [("people", 4.0), ("flushes_a_day", 6.0), ("flush_l", 0.5)] {
            engine.tell_figure(figure, Some(value), &at(1)).unwrap();
        }
        assert!(!page(&engine, &at(1)).reminders.is_empty());
        tell(&mut engine, &[(variable, setting)], &at(2));
        page(&engine, &at(2))
    };
    let danger = of("co_alarm.sound", "sounding");
    assert!(!danger.emergency.is_empty() && danger.reminders.is_empty());
    let laid_up = of("pitch.purpose", "laid_up");
    assert!(laid_up.stands.is_some_and(|stands| stands.finished));
    assert!(laid_up.reminders.is_empty() && laid_up.remind_utc_ms.is_none());
}
