//! What runs by itself and must not end alone: a fresh tank that fills. Common practice, no source.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test")]

use std::cell::Cell;
use std::fmt::Write as _;

use stowfast_core::clock::Stamp;
use stowfast_core::routine::{Outcome, Plan, Problem, plan, share};
use stowfast_core::state::{Act, Entry, Fact, How, NewEntry, State};
use stowfast_core::vehicle::{AgeOf, Deed, Settings, Vehicle};
use stowfast_tests::cases::{self, Case, Kinds};
use stowfast_tests::checker::check;
use stowfast_tests::choices::Choices;
use stowfast_tests::draw::{Effort, law};
use stowfast_tests::packs::Size;
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

/// Half a minute after something began to run, and half a minute before it is expected to be over.
const RAN_MS: i64 = 30_000;

/// What was said of something that runs, and whether its end was seen by then.
struct Running {
    case: Case,
    log: Vec<Entry>,
    age: usize,
    seen: bool,
}

impl std::fmt::Debug for Running {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{:?}\n{:?}", self.case, self.log)
    }
}

impl Running {
    /// It begins, and what its end brings about is read before or after that, as something or other.
    fn drawn(list: &[u16]) -> Option<Self> {
        let size = Size { least: 1, most: 3, own_seconds: false };
        let case = Case::drawn(list, Kinds::Attended, size).ok()?;
        let more: Vec<_> = list.iter().rev().map(|number| number.rotate_left(5)).collect();
        let choices = &mut Choices::new(&more);
        let vehicle = &case.vehicle;
        let known = |number: usize| vehicle.variables[number].age_of.filter(|of| of.attended);
        let ages: Vec<_> =
            (0..vehicle.variables.len()).filter(|one| known(*one).is_some()).collect();
        let age = *choices.one_of(&ages)?;
        let of = known(age)?;
        let mut ends = vehicle.actions.iter().filter(|one| one.deed == Deed::Move);
        let end = ends.find(|one| one.before.iter().any(|asked| asked.variable == age))?;
        let mut brings =
            end.effects.iter().filter(|one| !one.spoilt && one.variable != of.variable);
        let brought = brings.next()?;
        let settings = cases::belief(choices, vehicle, brought.variable);
        let after = !choices.once_in(4);
        let said = |ms: i64, variable: usize, settings: Settings, how: How| {
            let known = &vehicle.variables[variable];
            let settings = known.names_of(settings);
            let facts = vec![Fact { variable: known.id.clone(), settings, how }];
            entry(ms, facts)
        };
        let begun = said(RAN_MS, of.variable, Settings::one(of.setting), How::Done);
        let read_ms = if after { 2 * RAN_MS } else { 1 };
        let read = said(read_ms, brought.variable, settings, How::Reading);
        let log = if after { vec![begun, read] } else { vec![read, begun] };
        let seen = after && settings == Settings::one(brought.to);
        Some(Self { case, log, age, seen })
    }
}

fn entry(ms: i64, facts: Vec<Fact>) -> Entry {
    let said = NewEntry {
        at: Stamp::utc(ms),
        run: None,
        act: Act::Report,
        facts,
        reading: None,
        finding: None,
        figure: None,
        note: String::new(),
    };
    Entry { seq: ms, said }
}

/// A wait ends when what it is for is seen to be so since it began, and by nothing else but time.
#[test]
fn a_wait_is_over_exactly_where_its_end_was_seen() {
    let (over, not) = (Cell::new(0), Cell::new(0));
    let held = law(Effort { cases: 300, numbers_max: 400 }, Running::drawn, |running| {
        let Case { vehicle, catalogue, .. } = &running.case;
        let (state, now) = (State::fold(vehicle, catalogue, &running.log), Stamp::utc(2 * RAN_MS));
        let is_old = state.settings(vehicle, &now)[running.age] == Settings::one(AgeOf::OLD);
        let left_s = state.ripens_s(vehicle, &now)[&running.age];
        let count = if running.seen { &over } else { &not };
        count.set(count.get() + 1);
        if is_old == running.seen && (left_s == 0) == running.seen {
            return Ok(());
        }
        Err(format!("old: {is_old}, {left_s} s left"))
    });
    held.unwrap_or_else(|why| panic!("{why}"));
    assert!(over.get() > 30 && not.get() > 30, "{over:?} {not:?}");
}
