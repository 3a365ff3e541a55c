//! A tank that fills: where to be, and by when.

use super::{MIN, at, demo, tell};
use crate::clock::{Monotonic, Stamp};
use crate::engine::{Engine, StepKind};

const THERE: &str = "Outside, door side: be there in about";

fn said(engine: &Engine, now: &Stamp) -> Vec<String> {
    let page = engine.preview("serviced", now).unwrap();
    page.warnings.into_iter().filter(|line| line.starts_with("Water running")).collect()
}

fn filling() -> Engine {
    let mut engine = demo();
    let facts = [("pitch.water", "tap"), ("fill_hose.hose", "connected"), ("fresh.drain", "shut")];
    tell(&mut engine, &facts, &at(10));
    engine
}

#[test]
fn while_a_tank_fills_the_page_says_where_to_be_and_by_when() {
    let mut engine = filling();
    assert_eq!(said(&engine, &at(10)), [""; 0]);
    engine.tick("fresh.start_filling", &at(10)).unwrap();
    let line = |minutes: i64| said(&engine, &at(minutes)).concat();
    assert!(line(12).contains(&format!("{THERE} 8 min, and stay until it ends.")), "{}", line(12));
    assert!(line(20).contains("go there now"), "{}", line(20));
    engine.open_run("serviced", &at(12)).unwrap();
    let silent = |minutes: i64| engine.routine(&at(minutes)).unwrap().unwrap().waits_s;
    let left_s = silent(12).expect("a phone may remind in time, whatever is done meanwhile");
    assert!((400..=480).contains(&left_s), "{left_s}");
    assert_eq!(silent(20), None, "now is the time");
    engine.tick("fresh.end_filling", &at(21)).unwrap();
    assert_eq!(said(&engine, &at(21)), [""; 0]);
}

#[test]
fn the_page_names_each_moment_at_which_it_says_something_else() {
    let mut engine = filling();
    engine.tick("fresh.start_filling", &at(10)).unwrap();
    engine.open_run("serviced", &at(12)).unwrap();
    engine.look("drawers.catch.look", "latched", &at(12)).unwrap();
    let page = |after_s: i64| {
        let now = Stamp::utc(at(12).utc_ms + after_s * 1_000);
        engine.routine(&now).unwrap().unwrap()
    };
    let goes = |after_s: i64| page(after_s).warnings.concat().contains("go there now");
    let silent = |after_s: i64| page(after_s).waits_s.is_some();
    let mut moments = vec![0];
    while let Some(left_s) = page(moments[moments.len() - 1]).again_s {
        let last_s = moments[moments.len() - 1];
        let next_s = last_s + i64::from(left_s);
        assert_eq!(goes(next_s - 1), goes(last_s), "{last_s} to {next_s} s");
        assert_eq!(silent(next_s - 1), silent(last_s), "{last_s} to {next_s} s");
        moments.push(next_s);
    }
    let last_s = moments[moments.len() - 1];
    assert!(moments.len() > 2, "to set out, and to be there: {moments:?}");
    assert!(!goes(0) && goes(last_s) && silent(0) && !silent(last_s), "{moments:?}");
}

#[test]
fn what_was_only_found_running_may_be_full_at_once() {
    let mut engine = filling();
    engine.look("fresh.fill.look", "running", &at(11)).unwrap();
    assert!(said(&engine, &at(11)).concat().contains("go there now"));
    let first = engine.preview("serviced", &at(11)).unwrap().steps.remove(0);
    assert_eq!(first.id, "fresh.end_filling", "and that comes first");
}

#[test]
fn after_a_restart_nobody_knows_for_how_long_it_has_filled_so_one_goes_there() {
    let mut engine = filling();
    let on = |boot: &str, minutes: i64| Stamp {
        monotonic: Some(Monotonic { boot: boot.to_owned(), ms: minutes * MIN }),
        ..at(minutes)
    };
    engine.tick("fresh.start_filling", &on("one", 11)).unwrap();
    assert!(said(&engine, &on("one", 12)).concat().contains("about 9 min"));
    assert!(said(&engine, &on("two", 12)).concat().contains("go there now"));
}

#[test]
fn whoever_says_full_while_it_fills_is_not_told_to_wait() {
    let mut engine = filling();
    engine.report("fresh.level", "full", &at(9)).unwrap();
    engine.tick("fresh.start_filling", &at(10)).unwrap();
    engine.open_run("serviced", &at(12)).unwrap();
    assert!(said(&engine, &at(12)).concat().contains(THERE), "what was said before it ran");
    engine.report("fresh.level", "full", &at(13)).unwrap();
    assert!(said(&engine, &at(13)).concat().contains("go there now"));
    let page = engine.routine(&at(13)).unwrap().unwrap();
    let first = page.steps.first().unwrap();
    assert_eq!((first.id.as_str(), first.wait_s), ("fresh.end_filling", 0));
    assert!(page.waits_s.is_none() && page.steps.iter().all(|step| step.kind != StepKind::Wait));
    engine.tick("fresh.end_filling", &at(14)).unwrap();
    assert_eq!(said(&engine, &at(14)), [""; 0]);
}
