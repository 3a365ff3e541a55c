//! Clocks that change, phones that restart, and time that goes by while nobody says anything.

use super::{MIN, at, carry_out, demo, tell};
use crate::clock::{Monotonic, Stamp};
use crate::engine::{Engine, StepKind, VerdictKind};

/// An instant by both clocks: what the wall shows, and how long since a start of the device.
fn both(utc_min: i64, since_start_min: i64, boot: &str) -> Stamp {
    let monotonic = Monotonic { ms: since_start_min * MIN, boot: boot.to_owned() };
    Stamp { monotonic: Some(monotonic), ..at(utc_min) }
}

/// The boiler was switched off at the given moment, and may be drained once it is cool.
fn cooling(now: &Stamp) -> Engine {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo("a", now).unwrap();
    engine.open_run("pitched_hookup", now).unwrap();
    tell(&mut engine, &[("boiler.drain", "shut"), ("tap_galley.lever", "hot")], now);
    engine.tick("boiler.switch_off", now).unwrap();
    engine
}

/// In how many seconds the boiler may be drained.
fn ripens_s(engine: &Engine, now: &Stamp) -> Option<u32> {
    let loaded = engine.at(now).unwrap();
    let age = loaded.vehicle.variable("boiler.heat.cool_min").unwrap();
    loaded.state.ripens_s(&loaded.vehicle, now).get(&age).copied()
}

fn may_drain(engine: &Engine, now: &Stamp) -> bool {
    engine.refusals("boiler.open_drain", now).unwrap().is_empty()
}

#[test]
fn a_timer_is_right_after_the_phones_clock_or_zone_moved() {
    let engine = cooling(&both(0, 0, "one"));
    for utc_min in [20, 20 - 180, 20 + 180, -500_000] {
        let now = both(utc_min, 20, "one");
        assert_eq!(ripens_s(&engine, &now), Some(40 * 60), "the wall shows {utc_min}");
        assert!(!may_drain(&engine, &now));
        assert!(may_drain(&engine, &both(utc_min, 60, "one")), "the wall shows {utc_min}");
    }
}

/// A countdown is no counter in memory: it follows from the log. Restarted, the phone cannot tell
/// how long it was off, so the wait begins anew, and the page says why.
#[test]
fn a_phone_restarted_during_a_countdown_waits_the_whole_time_again() {
    let mut engine = cooling(&both(0, 0, "one"));
    let restarted = both(30, 1, "two");
    assert!(!may_drain(&engine, &restarted));
    assert!(!may_drain(&engine, &both(600, 571, "two")), "nobody has said anything since");
    assert_eq!(ripens_s(&engine, &restarted), None, "the whole time");
    let page = engine.routine(&restarted).unwrap().unwrap();
    assert!(page.warnings.iter().any(|line| line.contains("restarted")), "{:?}", page.warnings);
    engine.report("boiler.heat", "off", &restarted).unwrap();
    assert!(!may_drain(&engine, &both(80, 51, "two")));
    engine.tick("boiler.switch_off", &restarted).unwrap();
    assert_eq!(ripens_s(&engine, &both(40, 11, "two")), Some(50 * 60));
    assert!(may_drain(&engine, &both(90, 61, "two")));
}

#[test]
fn a_clock_set_back_makes_every_earlier_look_lapse_for_good() {
    let mut engine = demo();
    engine.open_run("ready_to_drive", &at(60)).unwrap();
    carry_out(&mut engine, &at(61));
    assert_eq!(engine.now_page(&at(62)).unwrap().verdict, VerdictKind::Clear);
    let back = engine.now_page(&at(30)).unwrap();
    assert_eq!((back.verdict, back.clock_changed), (VerdictKind::Unknown, true));
    // Said on the old clock's side, anything makes the clock run on from there: what was looked at
    // before it was set back stays of an unknown age, even when the clock shows that hour again.
    engine.note("the clock was set back", &at(30)).unwrap();
    let later = engine.now_page(&at(62)).unwrap();
    assert_eq!((later.verdict, later.clock_changed), (VerdictKind::Unknown, false));
    carry_out(&mut engine, &at(63));
    assert_eq!(engine.now_page(&at(64)).unwrap().verdict, VerdictKind::Clear);
}

/// Set forward within one start of the device nothing changes; without a clock that nobody can set
/// what is old by the wall is old.
#[test]
fn a_clock_set_forward_counts_only_where_no_other_clock_is_known() {
    let clear = |opened: &Stamp, done: &Stamp, now: &Stamp| {
        let mut engine = Engine::in_memory("en").unwrap();
        engine.add_demo("a", opened).unwrap();
        engine.open_run("ready_to_drive", opened).unwrap();
        carry_out(&mut engine, done);
        engine.now_page(now).unwrap().verdict == VerdictKind::Clear
    };
    let (opened, done) = (both(0, 0, "one"), both(5, 5, "one"));
    assert!(clear(&opened, &done, &both(600, 10, "one")), "two looks five minutes ago");
    assert!(!clear(&opened, &done, &both(10, 600, "one")), "ten hours ago by the steady clock");
    assert!(clear(&at(0), &at(5), &at(10)));
    assert!(!clear(&at(0), &at(5), &at(600)));
}

#[test]
fn a_departure_lapses_in_a_pause_of_three_days() {
    let mut engine = demo();
    engine.open_run("ready_to_drive", &at(1)).unwrap();
    carry_out(&mut engine, &at(5));
    engine.pause(&at(6)).unwrap();
    let days = |n: i64| at(n * 1_440);
    assert_eq!(engine.now_page(&days(3)).unwrap().verdict, VerdictKind::Unknown);
    engine.resume(&days(3)).unwrap();
    let page = engine.routine(&days(3)).unwrap().unwrap();
    assert!(page.resumed_from_pause && !page.finished);
    let moves: Vec<_> =
        page.steps.iter().filter(|step| step.kind == StepKind::Move).map(|it| &it.id).collect();
    assert_eq!(moves, ["walk_round.walk"], "what was done stays done; it is only looked at again");
    carry_out(&mut engine, &days(3));
    assert_eq!(engine.now_page(&days(3)).unwrap().verdict, VerdictKind::Clear);
}

/// The hook-up dies while it is being made: the report is taken, and what can still be done is
/// planned from there.
#[test]
fn facts_change_in_the_middle_of_a_routine() {
    let mut engine = demo();
    tell(&mut engine, &[("lead.post_end", "out"), ("mains_switch.lever", "off")], &at(0));
    engine.open_run("pitched_hookup", &at(1)).unwrap();
    let first = engine.routine(&at(1)).unwrap().unwrap().steps[0].id.clone();
    engine.tick(&first, &at(2)).unwrap();
    engine.report("post.supply", "dead", &at(3)).unwrap();
    let page = engine.routine(&at(3)).unwrap().unwrap();
    assert_eq!(page.verdict, VerdictKind::Blocked);
    assert!(!page.impossible.is_empty() && !page.finished);
    assert!(page.done.iter().any(|row| !row.voided), "what was done stays done");
    engine.report("post.supply", "live", &at(4)).unwrap();
    assert_eq!(engine.routine(&at(4)).unwrap().unwrap().impossible, [""; 0]);
    carry_out(&mut engine, &at(5));
    assert!(engine.routine(&at(5)).unwrap().unwrap().finished);
}
