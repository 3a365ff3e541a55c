//! Laid up for winter: what says so, since when, and what is offered first.

use super::{at, tell};
use crate::clock::Stamp;
use crate::engine::{Engine, GestureKind, Line, StandsRow, StepKind};

const DAY_MIN: i64 = 24 * 60;

fn demo(id: &str) -> Engine {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo(id, &at(0)).unwrap();
    engine
}

fn stands(engine: &Engine, minute: i64) -> Option<StandsRow> {
    engine.now_page(&at(minute)).unwrap().stands
}

/// Carries the routine under way out as its lists come. Gives the minute at which nothing is left.
fn carried_out(engine: &mut Engine, mut minute: i64) -> i64 {
    for _ in 0..200 {
        let page = engine.routine(&at(minute)).unwrap().unwrap();
        let Some(gesture) = page.stops.iter().flat_map(|stop| &stop.gestures).next() else {
            assert!(page.finished, "{}: {:?}", page.headline, page.impossible);
            return minute;
        };
        let took_s = |step: &crate::engine::StepRow| step.hands_on_s + step.walk_s + step.wait_s;
        let all = page.steps.iter().take(gesture.steps.len()).map(took_s).sum::<i32>();
        minute += i64::from(all / 60 + 1);
        if gesture.kind != GestureKind::Wait {
            let line = |step: &String| Line { step: step.clone(), odd: None };
            let lines: Vec<_> = gesture.steps.iter().map(line).collect();
            engine.confirm(&lines, &at(minute)).unwrap();
        }
    }
    panic!("it never ends");
}

/// Serviced, laid up and closed; gives when that was. Unit: min.
fn laid_up(engine: &mut Engine) -> i64 {
    let minute = begun(engine);
    let minute = carried_out(engine, minute);
    engine.close_run(&at(minute)).unwrap();
    minute
}

/// Serviced, and the lay-up opened; gives when that was. Unit: min.
fn begun(engine: &mut Engine) -> i64 {
    let here = ["pitch.waste_point", "pitch.toilet_point"].map(|point| (point, "here"));
    tell(engine, &here, &at(0));
    tell(engine, &[("pitch.water", "tap")], &at(0));
    engine.open_run("serviced", &at(0)).unwrap();
    let minute = carried_out(engine, 0);
    engine.open_run("laid_up_winter", &at(minute)).unwrap();
    minute
}

#[test]
fn laid_up_for_winter_says_so_since_when_and_offers_the_way_back() {
    for vehicle in ["a", "b"] {
        let mut engine = demo(vehicle);
        assert_eq!(stands(&engine, 0), None, "in use");
        let minute = laid_up(&mut engine);
        let said = stands(&engine, minute + 100 * DAY_MIN).unwrap();
        assert_eq!(said.headline, "Laid up for winter.");
        assert!(said.finished);
        assert_eq!(said.since_utc_ms, Some(at(minute).utc_ms));
        assert_eq!(said.target_id, "back_in_service", "{vehicle}");
        assert_eq!(said.target_title, "Bring back into service");
        engine.open_run("back_in_service", &at(minute + 100 * DAY_MIN)).unwrap();
        assert_eq!(stands(&engine, minute + 100 * DAY_MIN), None, "{vehicle}");
    }
}

#[test]
fn what_of_the_winter_is_not_so_comes_with_the_routine_that_sees_to_it() {
    let mut engine = demo("a");
    tell(&mut engine, &[("pitch.purpose", "laid_up")], &at(1));
    let said = stands(&engine, 2).unwrap();
    assert_eq!(said.headline, "Said to be laid up for winter.");
    assert_eq!(said.led_id, "laid_up_winter");
    assert!(said.items.iter().any(|item| item.known_bad && item.variable == "fresh.level"));
    let way = engine.preview(&said.led_id, &at(2)).unwrap();
    assert_eq!(way.impossible, [""; 0], "its steps see to all of it");
    let first_unknown = said.items.iter().position(|item| !item.known_bad).unwrap();
    assert!(said.items.iter().skip(first_unknown).all(|item| !item.known_bad));
    assert!(said.not_seen.iter().all(|one| said.items.iter().all(|item| item.title != *one)));
}

#[test]
fn carried_out_nothing_is_left_and_what_was_only_said_is_not_called_seen() {
    let mut engine = demo("a");
    let minute = laid_up(&mut engine);
    let said = stands(&engine, minute).unwrap();
    let none = |row: &StandsRow| row.items.iter().all(|item| !item.known_bad);
    assert!(none(&said), "{:?}", said.items);
    assert!(!said.not_seen.contains(&"Fresh tank".to_owned()), "{:?}", said.not_seen);
    // A month later somebody reports the drain shut, and then only says that it is open.
    tell(&mut engine, &[("fresh.drain", "shut")], &at(minute + 30 * DAY_MIN));
    let worse = stands(&engine, minute + 30 * DAY_MIN).unwrap();
    let titles: Vec<_> = worse.items.iter().map(|item| item.title.as_str()).collect();
    assert!(titles.contains(&"Drain of the fresh tank"), "{titles:?}");
    assert_eq!(worse.headline, "Said to be laid up for winter.");
    tell(&mut engine, &[("fresh.drain", "open")], &at(minute + 30 * DAY_MIN + 1));
    let word = stands(&engine, minute + 30 * DAY_MIN + 1).unwrap();
    assert!(none(&word), "{:?}", word.items);
    assert!(word.not_seen.contains(&"Drain of the fresh tank".to_owned()), "{:?}", word.not_seen);
}

#[test]
fn while_it_is_being_laid_up_the_routine_itself_says_so() {
    let mut engine = demo("b");
    let minute = begun(&mut engine);
    assert_eq!(stands(&engine, minute), None);
    engine.pause(&at(minute)).unwrap();
    assert_eq!(stands(&engine, minute), None);
    engine.resume(&at(minute)).unwrap();
    let minute = carried_out(&mut engine, minute);
    assert_eq!(stands(&engine, minute), None, "somebody closes it");
}

#[test]
fn a_lay_up_that_was_broken_off_is_not_called_laid_up() {
    let mut engine = demo("b");
    let minute = begun(&mut engine);
    engine.pause(&at(minute)).unwrap();
    engine.resume(&at(minute)).unwrap();
    engine.close_run(&at(minute)).unwrap();
    let said = stands(&engine, minute).unwrap();
    assert_eq!(said.headline, "Laying up for winter is not finished.");
    assert!(!said.finished);
    assert_eq!(said.target_id, "laid_up_winter");
    engine.open_run("laid_up_winter", &at(minute)).unwrap();
    let minute = carried_out(&mut engine, minute);
    // Another routine closes it, with nothing left to do.
    engine.open_run("battery_read", &at(minute)).unwrap();
    let said = stands(&engine, minute).unwrap();
    assert!(said.finished, "{}", said.headline);
    assert_eq!(said.target_id, "back_in_service");
}

#[test]
fn what_was_left_undone_is_not_laid_up_until_somebody_says_that_it_is() {
    let mut engine = demo("b");
    let minute = begun(&mut engine);
    for _ in 0..100 {
        let page = engine.routine(&at(minute)).unwrap().unwrap();
        let Some(step) = page.steps.iter().find(|step| step.kind != StepKind::Wait) else { break };
        engine.left_anyway(&step.id, "", &at(minute)).unwrap();
    }
    engine.close_run(&at(minute)).unwrap();
    assert!(!stands(&engine, minute).unwrap().finished);
    tell(&mut engine, &[("pitch.purpose", "laid_up")], &at(minute + 1));
    assert!(stands(&engine, minute + 1).unwrap().finished);
}

#[test]
fn somebodys_word_lays_it_up_and_takes_it_back_and_so_does_the_road() {
    let mut engine = demo("b");
    tell(&mut engine, &[("pitch.purpose", "laid_up")], &at(1));
    assert!(stands(&engine, 2).unwrap().finished, "somebody laid it up without the list");
    tell(&mut engine, &[("pitch.purpose", "in_use")], &at(3));
    assert_eq!(stands(&engine, 4), None);
    laid_up(&mut engine);
    engine.drive_off(&at(50_000)).unwrap();
    engine.arrive(&at(50_060)).unwrap();
    assert_eq!(stands(&engine, 50_061), None);
}

#[test]
fn a_date_that_lies_ahead_is_not_told() {
    let mut engine = demo("b");
    let minute = laid_up(&mut engine);
    let restarted = Stamp::utc(at(minute).utc_ms - 1);
    let said = engine.now_page(&restarted).unwrap().stands.unwrap();
    assert_eq!(said.since_utc_ms, None);
    assert!(said.finished);
}

#[test]
fn carried_to_another_device_it_is_laid_up_there_too() {
    let mut engine = demo("b");
    let minute = laid_up(&mut engine);
    let text = engine.export_text().unwrap();
    let mut other = Engine::in_memory("en").unwrap();
    other.import(text.as_bytes(), "kept.json", &at(minute)).unwrap();
    assert_eq!(stands(&other, minute + 5), stands(&engine, minute + 5));
    let log = other.log(1).unwrap();
    assert_eq!(log.first().unwrap().text, "Routine closed. Said: Vehicle: laid up");
}
