//! What a long wait does to the order (semantics 14): the cost is summed over the whole day and a wait
//! is filled with other work. Compared part by part, in order, the first part would be as short as it
//! can be, and the owner's day longer.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    reason = "a test may fail loudly"
)]

use stowfast_core::routine::{Outcome, Plan, Problem, Proof, plan};
use stowfast_core::vehicle::{Deed, Settings, Vehicle};
use stowfast_tests::checker::{Violation, check};
use stowfast_tests::judge::{Judged, judge};
use stowfast_tests::oracle::{Answer, solve};
use stowfast_tests::small;

/// Must cool for half an hour before its cover goes on.
const STOVE: &str = r#"
[[variable]]
id = "heat"
settings = ["on", "off"]
usual = "on"
look_s = 1
[[variable]]
id = "cover"
settings = ["away", "on"]
usual = "away"
look_s = 1
[[value]]
id = "cool_min"
default = 30
min = 0
max = 60
source = "made up"
[[move]]
id = "switch_off"
set = { heat = "off" }
seconds = 5
hazard = false
[[move]]
id = "put_cover_on"
set = { cover = "on" }
before = [{ own = "heat", in = ["off"], held_for = "cool_min" }]
seconds = 5
hazard = false
"#;

/// Twenty minutes of work elsewhere.
const AWNING: &str = r#"
[[variable]]
id = "cloth"
settings = ["out", "in"]
usual = "out"
look_s = 1
[[move]]
id = "wind_in"
set = { cloth = "in" }
seconds = 1200
hazard = false
"#;

/// How long it takes until a wait of more than a quarter of an hour begins, or all is done.
fn first_part_s(problem: &Problem, plan: &Plan) -> u32 {
    let (mut zone, mut spent_s) = (problem.zone, 0);
    for (place, number) in plan.steps.iter().enumerate() {
        let action = problem.vehicle.actions.get(*number).unwrap();
        if action.deed != Deed::Wait {
            spent_s += problem.vehicle.walks.between(zone, action.zone) + action.seconds;
            zone = action.zone;
            continue;
        }
        let wait_s = plan.wait_s.get(&place).copied().unwrap_or(0);
        let to = plan.zone(problem.vehicle, place).unwrap_or(zone);
        spent_s += problem.vehicle.walks.between(zone, to);
        zone = to;
        if wait_s > problem.vehicle.part_wait_s {
            break;
        }
        spent_s += wait_s;
    }
    spent_s
}

/// The plan of these steps, at the cost that the checker finds.
fn by_hand(problem: &Problem, vehicle: &Vehicle, steps: &[&str], wait_s: (usize, u32)) -> Plan {
    let steps = steps.iter().map(|id| vehicle.action(id).unwrap().0).collect();
    let (cost, nodes) = (stowfast_core::routine::Cost::default(), 0);
    let mut plan = Plan { steps, wait_s: [wait_s].into(), cost, proof: Proof::Exact, nodes };
    let found = check(problem, &plan);
    let [Violation::Cost(cost)] = found.as_slice() else { panic!("{found:?}") };
    plan.cost = **cost;
    plan
}

#[test]
fn part_by_part_the_whole_day_would_be_longer() {
    let vehicle = small::vehicle(&[("stove", "in", STOVE), ("awning", "out", AWNING)]);
    let goals = [("stove.heat", "off"), ("stove.cover", "on"), ("awning.cloth", "in")];
    let problem = small::problem(&vehicle, &goals);
    let Outcome::Plan(whole_day) = plan(&problem) else { panic!("no way") };
    assert_eq!(check(&problem, &whole_day), []);
    let oracle = solve(&problem.with_ways_out(), 10_000);
    assert!(
        matches!(oracle, Answer::Possible { cost, .. } if cost == whole_day.cost),
        "{oracle:?}"
    );

    let steps = ["stove.switch_off", "WAIT", "stove.put_cover_on", "awning.wind_in"];
    let mut actions = vehicle.actions.iter();
    let wait = actions.find(|one| one.deed == Deed::Wait).unwrap().id.as_str();
    let steps = steps.map(|id| if id == "WAIT" { wait } else { id });
    let by_part = by_hand(&problem, &vehicle, &steps, (1, 1_800));

    let (first, by_part_first) =
        (first_part_s(&problem, &whole_day), first_part_s(&problem, &by_part));
    assert!(by_part_first < first, "by part: {by_part_first} s, else {first} s");
    let longer_s = by_part.cost.elapsed_s - whole_day.cost.elapsed_s;
    assert!(longer_s > 15 * 60, "only {longer_s} s longer");
}

/// A lid elsewhere, which may only go on once the stove is cold.
const LID: &str = r#"
[[variable]]
id = "lid"
settings = ["away", "on"]
usual = "away"
look_s = 1
[[move]]
id = "put_on"
set = { lid = "on" }
seconds = 5
hazard = false
"#;

/// One walks to the lid while the stove cools, and waits there for what is left: so nobody looks at it
/// first only to stand beside it.
#[test]
fn the_walk_to_the_next_step_falls_within_the_wait() {
    let stove = STOVE
        .replace("before = [{ own = \"heat\", in = [\"off\"], held_for = \"cool_min\" }]\n", "");
    let clause = "[[clause]]\nid = \"hot\"\nseverity = \"damage\"\nnever = [\n\
        { own = \"heat\", in = [\"off\"], not_yet_for = \"cool_min\" },\n\
        { each = \"lid.lid\", in = [\"on\"] },\n]\nsource = \"made up\"\n";
    let stove = format!("{stove}{clause}");
    let vehicle = small::vehicle(&[("stove", "in", &stove), ("lid", "out", LID)]);
    let mut problem = small::problem(&vehicle, &[("lid.lid", "on")]);
    let heat = vehicle.variable("stove.heat").unwrap();
    problem.beliefs[heat] = Settings::one(vehicle.setting(heat, "off").unwrap());
    for (number, variable) in vehicle.variables.iter().enumerate() {
        if variable.age_of.is_some() || variable.name == "lid" {
            problem.beliefs[number] = variable.all;
        }
    }
    let (put_on, _) = vehicle.action("lid.put_on").unwrap();
    let age = vehicle.variables.iter().position(|one| one.age_of.is_some()).unwrap();
    let walk_s = vehicle.walks.between(0, 1);
    // Due in half an hour, on arriving, and on the way.
    for ripen_s in [1_800, walk_s, 1] {
        problem.ripens_s = [(age, ripen_s)].into();
        let (outcome, answer) = (plan(&problem), solve(&problem.with_ways_out(), 10_000));
        let Outcome::Plan(plan) = &outcome else { panic!("{outcome:?}") };
        assert_eq!(check(&problem, plan), []);
        assert_eq!(judge(&problem, &outcome, &answer), Judged::Same, "{plan:?} {answer:?}");
        assert_eq!(plan.proof, Proof::Exact);
        let [wait, last] = plan.steps[..] else { panic!("{plan:?}") };
        assert_eq!((vehicle.actions[wait].deed, last), (Deed::Wait, put_on));
        assert_eq!(plan.wait_s, [(0, ripen_s.saturating_sub(walk_s))].into());
        assert_eq!(plan.cost.elapsed_s, ripen_s.max(walk_s) + vehicle.actions[put_on].seconds);
    }
}
