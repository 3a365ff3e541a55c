//! A routine keeps its order, whatever happens on the way, as long as it leads there.

use super::{at, demo, tell};
use crate::engine::{Engine, RoutinePage};

fn ids(page: &RoutinePage) -> Vec<String> {
    page.steps.iter().map(|step| step.id.clone()).collect()
}

fn left(engine: &Engine, minute: i64) -> Vec<String> {
    ids(&engine.routine(&at(minute)).unwrap().unwrap())
}

/// The demo vehicle, leaving since minute 1, and the order that this has.
fn leaving() -> (Engine, Vec<String>) {
    let mut engine = demo();
    engine.open_run("ready_to_drive", &at(1)).unwrap();
    let order = left(&engine, 1);
    (engine, order)
}

fn without(order: &[String], steps: &[&str]) -> Vec<String> {
    order.iter().filter(|step| !steps.contains(&step.as_str())).cloned().collect()
}

#[test]
fn the_same_leaving_on_two_days_has_the_same_order() {
    let walked = |day: i64| {
        let mut engine = Engine::in_memory("en").unwrap();
        let minute = day * 1_440;
        engine.add_demo("a", &at(minute)).unwrap();
        engine.open_run("ready_to_drive", &at(minute)).unwrap();
        let mut walked = Vec::new();
        while let Some(step) = left(&engine, minute).first() {
            engine.tick(step, &at(minute)).unwrap();
            walked.push(step.clone());
        }
        walked
    };
    assert_eq!(walked(0), walked(1));
    assert_eq!(walked(0), leaving().1, "and the one that was promised");
}

#[test]
fn a_tick_out_of_order_leaves_the_rest_in_its_order() {
    let (mut engine, order) = leaving();
    for step in ["step.in", "window_galley.shut", "waste_hose.hose.look"] {
        engine.tick(step, &at(1)).unwrap();
    }
    let expected = without(&order, &["step.in", "window_galley.shut", "waste_hose.hose.look"]);
    assert_eq!(left(&engine, 1), expected);
}

#[test]
fn what_cannot_be_moved_leaves_the_rest_in_its_order() {
    let (mut engine, order) = leaving();
    engine.cannot("drawers.latch", "", &at(1)).unwrap();
    engine.cannot("roof_bed.shut", "", &at(1)).unwrap();
    assert_eq!(left(&engine, 1), without(&order, &["drawers.latch", "roof_bed.shut"]));
}

/// A look that finds something else asks for one more step, there and then.
#[test]
fn a_look_that_finds_something_else_leaves_the_others_in_their_order() {
    let (mut engine, order) = leaving();
    let place = order.iter().position(|step| step == "gas_right.valve.look").unwrap();
    for step in &order[..place] {
        engine.tick(step, &at(1)).unwrap();
    }
    engine.look("gas_right.valve.look", "open", &at(1)).unwrap();
    let now = left(&engine, 1);
    assert_eq!(now[0], "gas_right.shut", "{now:?}");
    assert_eq!(now[1..], order[place + 1..]);
}

/// One thing more to do is done where one comes by; the way round stays.
#[test]
fn what_comes_to_be_asked_for_is_done_where_one_stands_anyway() {
    let (mut engine, order) = leaving();
    tell(&mut engine, &[("window_bed.leaf", "open"), ("waste_hose.hose", "connected")], &at(1));
    let now = left(&engine, 1);
    let anew = ["window_bed.shut", "waste_hose.stow"];
    assert!(anew.iter().all(|step| now.contains(&(*step).to_owned())), "{now:?}");
    let done = ["window_bed.leaf.look", "waste_hose.connect", "waste_hose.stow"];
    let was = without(&order, &done);
    assert_eq!(without(&now, &anew), was);
}

/// What was seen before a pause must be seen again: in its old place.
#[test]
fn after_a_pause_looks_come_back_in_their_place() {
    let (mut engine, order) = leaving();
    let looks = ["roof_lounge.leaf.look", "fridge.selector.look"];
    for step in order.iter().take(5) {
        engine.tick(step, &at(1)).unwrap();
    }
    engine.pause(&at(2)).unwrap();
    engine.resume(&at(3)).unwrap();
    let now = left(&engine, 3);
    let known: Vec<_> = now.iter().filter(|step| order.contains(step)).cloned().collect();
    let kept: Vec<_> = order.iter().filter(|step| known.contains(step)).cloned().collect();
    assert_eq!(known, kept, "{now:?}");
    assert!(looks.iter().all(|look| known.contains(&(*look).to_owned())), "{now:?}");
}

/// Nothing of it lives in the process: another one that reads the log finds the same page.
#[test]
fn another_process_finds_the_same_order() {
    let (mut engine, order) = leaving();
    let said: [&dyn Fn(&mut Engine); 6] = [
        &|engine| drop(engine.tick(&order[0], &at(2)).unwrap()),
        &|engine| drop(engine.tick("step.in", &at(3)).unwrap()),
        &|engine| drop(engine.cannot("drawers.latch", "", &at(4)).unwrap()),
        &|engine| drop(engine.look("window_bed.leaf.look", "open", &at(5)).unwrap()),
        &|engine| tell(engine, &[("waste_hose.hose", "connected")], &at(6)),
        &|engine| drop(engine.unmark(engine.log(1).unwrap()[0].entry, &at(7)).unwrap()),
    ];
    for say in said {
        say(&mut engine);
        let here = engine.routine(&at(8)).unwrap();
        engine.load().unwrap();
        assert_eq!(engine.routine(&at(8)).unwrap(), here);
    }
}
