//! The named tests of the semantics, at the one door or on the planner itself.
//!
//! Elsewhere, under names that say the same:
//! a violated start: `a_live_connector_in_the_grass_is_unplugged_at_the_post_first` and
//! `an_open_roof_light_on_the_road_means_stopping_first` (`core/src/routine/tests.rs`); the
//! three-literal detour: `doing_everything_ready_in_a_zone_is_not_best` (`order.rs`); a level band
//! straddled by a coarse gauge: `a_reading_that_straddles_two_bands_gives_both`
//! (`core/src/engine/tests.rs`); a report out of order:
//! `a_report_out_of_order_is_taken_warned_about_and_planned_from` (there); a stuck fitting:
//! `a_stuck_roof_light_says_what_cannot_be_and_can_be_freed` (there); two people sharing a clause:
//! `two_people_sharing_a_clause` (`core/src/routine/pair/tests.rs`); a cycle in `before`:
//! `a_cycle_in_before_is_reported_with_the_cycle` (`core/src/catalogue/tests.rs`).
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    reason = "a test may fail loudly"
)]

use std::collections::{BTreeMap, BTreeSet};

use stowfast_core::catalogue::{Catalogue, Severity};
use stowfast_core::clock::{Monotonic, Stamp};
use stowfast_core::engine::{Engine, VerdictKind};
use stowfast_core::interlock::{Goal, GoalOf};
use stowfast_core::pack;
use stowfast_core::routine::{Outcome, Plan, Problem, plan};
use stowfast_core::vehicle::{Literal, Settings, Vehicle};
use stowfast_tests::checker::check;
use stowfast_tests::owner::{at, demo, ids};

const A: &str = include_str!("../../demo-data/a/pack.toml");

fn place(steps: &[&str], id: &str) -> usize {
    steps.iter().position(|step| *step == id).unwrap_or_else(|| panic!("no {id} in {steps:?}"))
}

/// Vehicle (a) with more fitted.
fn vehicle(more: &str) -> Vehicle {
    let catalogue = Catalogue::built_in().unwrap();
    let text = format!("{A}{more}");
    Vehicle::new(&pack::read("a", text.as_bytes(), catalogue).unwrap(), catalogue).unwrap()
}

fn literal(vehicle: &Vehicle, (id, setting): (&str, &str)) -> Literal {
    let variable = vehicle.variable(id).unwrap();
    let settings = Settings::one(vehicle.setting(variable, setting).unwrap());
    Literal { variable, settings }
}

/// A question about `vehicle` where every variable is usual but for `facts`; each goal is a list of
/// alternatives.
fn problem<'a>(
    vehicle: &'a Vehicle,
    zone: &str,
    facts: &[(&str, &str)],
    goals: &[&[(&str, &str)]],
) -> Problem<'a> {
    let usual = |one: &stowfast_core::vehicle::Variable| Settings::one(one.usual);
    let mut beliefs: Vec<_> = vehicle.variables.iter().map(usual).collect();
    for fact in facts {
        let fact = literal(vehicle, *fact);
        beliefs[fact.variable] = fact.settings;
    }
    let goal = |(number, any_of): (usize, &&[(&str, &str)])| Goal {
        of: GoalOf::Target(format!("g{number}")),
        any_of: any_of.iter().map(|one| literal(vehicle, *one)).collect(),
        fresh: false,
        severity: Severity::Damage,
    };
    Problem {
        vehicle,
        fresh: vec![false; beliefs.len()],
        beliefs,
        stuck: BTreeSet::new(),
        ripens_s: BTreeMap::new(),
        zone: vehicle.zones.iter().position(|one| one.id == zone).unwrap(),
        goals: goals.iter().enumerate().map(goal).collect(),
    }
}

fn found(problem: &Problem) -> Plan {
    let Outcome::Plan(plan) = plan(problem) else { panic!("no plan") };
    assert_eq!(check(problem, &plan), []);
    plan
}

fn steps<'a>(problem: &'a Problem, plan: &Plan) -> Vec<&'a str> {
    plan.steps.iter().map(|one| problem.vehicle.actions[*one].id.as_str()).collect()
}

/// The hose goes on, the tank is filled, the hose comes off: it ends as it was found.
#[test]
fn a_detour_moves_something_there_and_back() {
    let vehicle = vehicle("");
    let facts = [("fresh.level", "empty"), ("pitch.water", "tap")];
    let problem = problem(&vehicle, "door", &facts, &[&[("fresh.level", "full")]]);
    let plan = found(&problem);
    let steps = steps(&problem, &plan);
    let order = ["fill_hose.connect", "fresh.fill", "fill_hose.stow"].map(|id| place(&steps, id));
    assert!(order.is_sorted(), "{steps:?}");
}

/// Either will do, and the nearer one is taken; with that one stuck, the other.
#[test]
fn of_a_disjunctive_target_the_cheaper_alternative_is_taken() {
    let vehicle = vehicle("");
    let facts = [("window_galley.leaf", "open"), ("window_bed.leaf", "open")];
    let either: &[(&str, &str)] = &[("window_galley.leaf", "shut"), ("window_bed.leaf", "shut")];
    for (zone, taken) in [("galley", "window_galley.shut"), ("bed", "window_bed.shut")] {
        let problem = problem(&vehicle, zone, &facts, &[either]);
        assert_eq!(steps(&problem, &found(&problem)), [taken]);
    }
    let mut stuck = problem(&vehicle, "bed", &facts, &[either]);
    stuck.stuck.insert(vehicle.variable("window_bed.leaf").unwrap());
    assert_eq!(steps(&stuck, &found(&stuck)), ["window_galley.shut"]);
}

/// A rule can be kept in two ways in two zones: the pump runs where there is water, or stands still.
#[test]
fn of_alternative_support_in_two_zones_the_nearer_is_taken() {
    let more = "\n[[fitting]]\nid = \"second\"\nkind = \"gas_cylinder\"\ntitle = \"second\"\nzone = \"rear\"\n";
    let vehicle = vehicle(more);
    let facts = [("second.valve", "shut"), ("gas_left.valve", "shut"), ("gas_right.valve", "shut")];
    let either: &[(&str, &str)] = &[("gas_left.valve", "open"), ("second.valve", "open")];
    for (zone, taken) in [("nearside", "gas_left.open"), ("rear", "second.open")] {
        let problem = problem(&vehicle, zone, &facts, &[either, &[("boiler.heat", "off")]]);
        assert_eq!(steps(&problem, &found(&problem)), [taken]);
    }
}

/// Driving on to the ramps is one step of a routine: what it would tear off is in before it, though
/// nothing of the target asks for that, and out again after it.
#[test]
fn driving_is_a_move_inside_a_routine_on_to_ramps() {
    let ramps =
        "\n[[fitting]]\nid = \"ramps\"\nkind = \"ramps\"\ntitle = \"ramps\"\nzone = \"nearside\"\n";
    let vehicle = vehicle(ramps);
    let facts = [
        ("engine.running", "off"),
        ("handbrake.lever", "on"),
        ("ramps.boards", "stowed"),
        ("step.step", "out"),
    ];
    let problem = problem(&vehicle, "door", &facts, &[&[("ramps.under", "on")]]);
    let plan = found(&problem);
    let steps = steps(&problem, &plan);
    let order = ["step.in", "ramps.drive_up", "step.out"].map(|id| place(&steps, id));
    assert!(order.is_sorted(), "{steps:?}");
    assert!(place(&steps, "ramps.lay") < place(&steps, "ramps.drive_up"));
}

/// Two things are asked for that one rule forbids together: no plan, and the rule is named.
#[test]
fn a_target_that_no_state_satisfies_has_no_plan() {
    let vehicle = vehicle("");
    let goals: [&[(&str, &str)]; 3] =
        [&[("inlet_flap.leaf", "shut")], &[("step.step", "in")], &[("lead.vehicle_end", "in")]];
    let problem =
        problem(&vehicle, "door", &[("step.step", "out"), ("lead.coil", "uncoiled")], &goals);
    assert_eq!(plan(&problem), Outcome::Impossible(vec![0, 2]), "and the step is no part of it");
}

/// A move that cannot be taken back says so before it is made.
#[test]
fn a_move_that_cannot_be_taken_back_warns_before() {
    let mut engine = demo();
    engine.report("fresh.level", "empty", &at(1)).unwrap();
    engine.report("pump.power", "off", &at(2)).unwrap();
    let entry = engine.report("fresh.level", "full", &at(3)).unwrap().entries[0];
    let page = engine.preview(&format!("back/{entry}"), &at(4)).unwrap();
    let step = page.steps.iter().find(|step| step.id == "fresh.open_drain");
    let step = step.unwrap_or_else(|| panic!("{:?} {:?}", ids(&page), page.impossible));
    assert!(step.irreversible);
    assert!(step.cautions.iter().any(|said| said == "This cannot be taken back."));
    assert!(
        page.steps.iter().filter(|step| step.id != "fresh.open_drain").all(|one| !one.irreversible)
    );
}

/// What is read only with the mains off is read after the main switch, and not before.
#[test]
fn a_look_with_a_precondition_comes_after_what_it_waits_for() {
    let mut vehicle = vehicle("");
    let off = literal(&vehicle, ("mains_switch.lever", "off"));
    let (number, look) = vehicle.action("fill_hose.hose.look").unwrap();
    let variable = look.effects[0].variable;
    vehicle.actions[number].before.push(off);
    let goals: [&[(&str, &str)]; 2] =
        [&[("fill_hose.hose", "stowed")], &[("mains_switch.lever", "off")]];
    let mut problem = problem(&vehicle, "nearside", &[("mains_switch.lever", "on")], &goals);
    problem.beliefs[variable] = vehicle.variables[variable].all;
    problem.goals[0].fresh = true;
    assert_eq!(
        steps(&problem, &found(&problem)),
        ["mains_switch.switch_off", "fill_hose.hose.look"]
    );
    problem.goals.remove(1);
    problem.stuck.insert(off.variable);
    let Outcome::Plan(plan) = plan(&problem) else { panic!("no plan") };
    assert_eq!(steps(&problem, &plan), ["fill_hose.stow"], "no look, so it is done anew");
}

/// The hook-up dies in the middle of hooking up: the rest is no way any more, and what is asked for
/// is the fact; alive again, it goes on where it was.
#[test]
fn facts_change_in_the_middle_of_a_routine_and_the_hook_up_dies() {
    let mut engine = demo();
    engine.report("lead.post_end", "out", &at(1)).unwrap();
    engine.report("post.switch", "off", &at(1)).unwrap();
    engine.open_run("pitched_hookup", &at(2)).unwrap();
    let planned = engine.routine(&at(2)).unwrap().unwrap();
    assert!(ids(&planned).contains(&"lead.plug_in"));
    engine.tick("lead.plug_in", &at(3)).unwrap();
    engine.report("post.supply", "dead", &at(4)).unwrap();
    let dead = engine.routine(&at(4)).unwrap().unwrap();
    assert_eq!((dead.verdict, dead.finished), (VerdictKind::Blocked, false));
    assert!(dead.impossible.iter().any(|line| line.contains("live")), "{:?}", dead.impossible);
    engine.report("post.supply", "live", &at(5)).unwrap();
    let alive = engine.routine(&at(5)).unwrap().unwrap();
    assert!(alive.impossible.is_empty(), "{:?}", alive.impossible);
    assert!(!ids(&alive).contains(&"lead.plug_in"), "what was done is done");
    assert!(ids(&alive).contains(&"post.switch_on"));
}

/// What was done is believed after three days and looked at anew.
#[test]
fn a_departure_lapses_in_a_pause_of_three_days() {
    let mut engine = demo();
    engine.open_run("ready_to_drive", &at(1)).unwrap();
    for step in ["boiler.switch_off", "roof_bed.shut", "step.in"] {
        engine.tick(step, &at(2)).unwrap();
    }
    engine.pause(&at(3)).unwrap();
    let days = 3 * 1_440;
    engine.resume(&at(days)).unwrap();
    let page = engine.routine(&at(days)).unwrap().unwrap();
    assert!(page.resumed_from_pause);
    let steps = ids(&page);
    assert!(
        steps.contains(&"roof_bed.leaf.look") && steps.contains(&"step.step.look"),
        "{steps:?}"
    );
    assert!(!steps.contains(&"roof_bed.shut") && !steps.contains(&"step.in"), "{steps:?}");
    // Nobody paused it: it lapses by itself, and says so.
    let mut engine = demo();
    engine.open_run("ready_to_drive", &at(1)).unwrap();
    engine.tick("roof_bed.shut", &at(2)).unwrap();
    let page = engine.routine(&at(days)).unwrap().unwrap();
    assert!(page.warnings.iter().any(|line| line.contains("too old")), "{:?}", page.warnings);
    assert!(ids(&page).contains(&"roof_bed.leaf.look"));
}

/// Set back, every look has lapsed and the page says so; set forward within one start of the phone,
/// nothing has.
#[test]
fn the_clock_is_set_back_and_forward() {
    let clock = |utc_min: i64, up_min: i64| Stamp {
        utc_ms: at(utc_min).utc_ms,
        monotonic: Some(Monotonic { ms: up_min * 60_000, boot: "one".to_owned() }),
    };
    let mut engine = demo();
    engine.open_run("ready_to_drive", &at(10)).unwrap();
    engine.tick("roof_bed.shut", &at(11)).unwrap();
    let asked = |engine: &Engine, now: &Stamp| {
        let page = engine.routine(now).unwrap().unwrap();
        (ids(&page).contains(&"roof_bed.leaf.look"), engine.now_page(now).unwrap().clock_changed)
    };
    assert_eq!(asked(&engine, &at(12)), (false, false));
    assert_eq!(asked(&engine, &at(5)), (true, true), "set back");
    assert_eq!(asked(&engine, &at(12 + 300)), (true, false), "without a second clock: hours later");
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_pack(A, "a.toml", &clock(0, 0)).unwrap();
    engine.open_run("ready_to_drive", &clock(10, 10)).unwrap();
    engine.tick("roof_bed.shut", &clock(11, 11)).unwrap();
    assert_eq!(asked(&engine, &clock(12 + 300, 12)), (false, false), "set forward");
    assert_eq!(asked(&engine, &clock(5, 12)), (false, false), "set back within one start");
}
