//! What runs by itself and must not end alone: a fresh tank that fills. Common practice, no source.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test")]

use std::fmt::Write as _;

use stowfast_core::routine::{Outcome, Plan, Problem, plan, share};
use stowfast_core::vehicle::Vehicle;
use stowfast_tests::checker::check;
use stowfast_tests::question::{asked, ids, problem, told, usual, vehicle};
use stowfast_tests::timed;

/// A tank to fill on one side, waste to let out at the other, so many seconds of walking away.
fn van(walk_s: u32) -> Vehicle {
    let mut text = "stowfast_pack = 1\ntitle = \"Made up\"\ninvented = true\n".to_owned();
    text += "home_zone = \"outside\"\n";
    for zone in ["outside", "gully", "post"] {
        _ = write!(text, "[[zone]]\nid = \"{zone}\"\ntitle = \"{zone}\"\n");
    }
    for (to, seconds) in [("gully", walk_s), ("post", 10)] {
        _ = write!(text, "[[walk]]\nfrom = \"outside\"\nto = \"{to}\"\nseconds = {seconds}\n");
    }
    let fitted = ["engine", "handbrake", "fresh_tank", "fill_hose", "waste_tank", "waste_hose"];
    for kind in fitted {
        let zone = if kind.starts_with("waste") { "gully" } else { "outside" };
        let title = kind.replace('_', " ");
        _ = write!(text, "[[fitting]]\nid = \"{kind}\"\nkind = \"{kind}\"\ntitle = \"{title}\"\n");
        _ = writeln!(text, "zone = \"{zone}\"");
    }
    vehicle(&text)
}

const EMPTY: &[(&str, &str)] = &[
    ("fresh_tank.level", "empty"),
    ("waste_tank.level", "full"),
    ("pitch.water", "tap"),
    ("pitch.waste_point", "here"),
    ("handbrake.lever", "on"),
];

fn serviced<'a>(vehicle: &'a Vehicle, facts: &[(&str, &str)]) -> Problem<'a> {
    let beliefs = told(vehicle, told(vehicle, usual(vehicle), EMPTY), facts);
    let goals = asked(vehicle, "serviced", &beliefs);
    problem(vehicle, beliefs, goals)
}

fn planned(problem: &Problem) -> (Vec<String>, Plan) {
    let Outcome::Plan(plan) = plan(problem) else { panic!("no plan") };
    assert_eq!(check(problem, &plan), []);
    (ids(problem.vehicle, &plan), plan)
}

fn place(ids: &[String], id: &str) -> usize {
    ids.iter().position(|one| one == id).unwrap_or_else(|| panic!("no {id} in {ids:#?}"))
}

#[test]
fn while_a_tank_fills_the_waste_is_let_out_and_one_is_back_in_time() {
    let vehicle = van(20);
    let (ids, plan) = planned(&serviced(&vehicle, &[]));
    let (start, end) =
        (place(&ids, "fresh_tank.start_filling"), place(&ids, "fresh_tank.end_filling"));
    for step in ["waste_tank.open_drain", "waste_tank.shut_drain", "waste_hose.stow"] {
        assert!((start..end).contains(&place(&ids, step)), "{ids:#?}");
    }
    assert_eq!(plan.cost.alone_s, 0);
    // Ten minutes of filling and what comes before and after: nothing of the waste comes on top.
    assert!(plan.cost.elapsed_s < 900, "{:?}", plan.cost);
}

#[test]
fn what_takes_longer_than_the_tank_to_fill_waits_until_it_is_full() {
    let vehicle = van(400);
    let (ids, plan) = planned(&serviced(&vehicle, &[]));
    let (start, end) =
        (place(&ids, "fresh_tank.start_filling"), place(&ids, "fresh_tank.end_filling"));
    let away = ids[start..end].iter().any(|id| id.starts_with("waste"));
    assert!(!away && plan.cost.alone_s == 0, "{ids:#?}");
    assert!(plan.steps.len() > 8, "the waste is let out all the same: {ids:#?}");
}

#[test]
fn a_tank_that_may_be_full_by_now_is_gone_to_first() {
    let vehicle = van(60);
    let facts = [
        ("fresh_tank.fill", "running"),
        ("fresh_tank.fill.fill_min", "old"),
        ("fill_hose.hose", "connected"),
    ];
    let mut question = serviced(&vehicle, &facts);
    question.zone = vehicle.zones.iter().position(|zone| zone.id == "gully").unwrap();
    let (ids, plan) = planned(&question.with_ways_out());
    assert_eq!(ids[0], "fresh_tank.end_filling", "{ids:#?}");
    assert_eq!(plan.cost.alone_s, 60, "no sooner than one can walk there");
}

#[test]
fn a_running_tank_is_seen_to_whatever_the_routine_is_for() {
    let vehicle = van(60);
    let facts = [
        ("fresh_tank.fill", "running"),
        ("fresh_tank.fill.fill_min", "old"),
        ("fill_hose.hose", "connected"),
    ];
    let beliefs = told(&vehicle, told(&vehicle, usual(&vehicle), EMPTY), &facts);
    let goals = asked(&vehicle, "parked_only", &beliefs);
    let (ids, _) = planned(&problem(&vehicle, beliefs, goals));
    assert!(ids.contains(&"fresh_tank.end_filling".to_owned()), "{ids:#?}");
}

#[test]
fn of_two_people_who_ends_it_is_there_in_time() {
    let vehicle = van(20);
    let problem = serviced(&vehicle, &[]);
    let (ids, plan) = planned(&problem);
    let schedule = share(&problem, &plan);
    assert_eq!(timed::check(&problem, &plan, &schedule.turns, schedule.elapsed_s), [""; 0]);
    assert!(schedule.elapsed_s <= plan.cost.elapsed_s);
    let people: Vec<_> = ["fresh_tank.end_filling", "waste_tank.open_drain"]
        .map(|id| schedule.turns.iter().find(|turn| turn.place == place(&ids, id)).unwrap().person)
        .into();
    assert_ne!(people[0], people[1], "one sees to the water, the other to the waste");
}
