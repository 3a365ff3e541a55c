//! Tests of the planner: the orders that follow from clauses, and the reductions held against the
//! plain search.

use std::collections::BTreeSet;

use super::search::{Found, WORK_MAX, search_with};
use super::{Cost, Outcome, Plan, Problem, Proof, plan};
use crate::catalogue::{Catalogue, Severity};
use crate::interlock::{Goal, GoalOf, goals};
use crate::pack;
use crate::vehicle::{Literal, Settings, Vehicle};

/// A demo vehicle with only the fittings whose kinds are named.
pub(super) fn vehicle(kinds: &[&str]) -> Vehicle {
    let catalogue = Catalogue::built_in().unwrap();
    let text = include_str!("../../../demo-data/a/pack.toml");
    let mut pack = pack::read("a", text.as_bytes(), catalogue).unwrap();
    if !kinds.is_empty() {
        pack.fittings.retain(|one| kinds.contains(&one.kind.get_ref().as_str()));
    }
    Vehicle::new(&pack, catalogue).unwrap()
}

/// A question where everything is as assumed but for `facts`.
pub(super) fn problem<'a>(
    vehicle: &'a Vehicle,
    target: &str,
    facts: &[(&str, &str)],
) -> Problem<'a> {
    let catalogue = Catalogue::built_in().unwrap();
    let mut beliefs: Vec<Settings> = vehicle.variables.iter().map(|one| one.assume).collect();
    for (variable, setting) in facts {
        let number = vehicle.variable(variable).unwrap();
        beliefs[number] = Settings::one(vehicle.setting(number, setting).unwrap());
    }
    Problem {
        vehicle,
        fresh: vec![false; beliefs.len()],
        beliefs,
        stuck: BTreeSet::new(),
        ripens_s: std::collections::BTreeMap::new(),
        zone: vehicle.home,
        goals: goals(vehicle, catalogue.target(target).unwrap(), &[]).unwrap(),
    }
}

pub(super) const HOOKED_UP: &[(&str, &str)] = &[
    ("handbrake.lever", "on"),
    ("post.supply", "live"),
    ("post.switch", "on"),
    ("lead.coil", "uncoiled"),
    ("lead.vehicle_end", "in"),
    ("lead.post_end", "in"),
    ("inlet_flap.leaf", "open"),
    ("mains_switch.lever", "on"),
    ("mains_switch.rcd", "tested"),
];

pub(super) fn planned(problem: &Problem) -> (Vec<String>, Plan) {
    match plan(problem) {
        Outcome::Plan(plan) => {
            let ids = plan.steps.iter().map(|step| problem.vehicle.actions[*step].id.clone());
            (ids.collect(), plan)
        }
        other => panic!("no plan: {other:?}"),
    }
}

/// The steps of `ids` whose names are listed, in the order of the plan.
fn among<'a>(ids: &'a [String], listed: &[&str]) -> Vec<&'a str> {
    ids.iter().map(String::as_str).filter(|id| listed.contains(id)).collect()
}

#[test]
fn leaving_hook_up_follows_from_clauses() {
    let vehicle = vehicle(&[]);
    let (ids, plan) = planned(&problem(&vehicle, "ready_to_drive", HOOKED_UP));
    let order = [
        "mains_switch.switch_off",
        "post.switch_off",
        "lead.unplug",
        "lead.disconnect_vehicle",
        "inlet_flap.shut",
        "lead.stow",
    ];
    assert_eq!(among(&ids, &order), order);
    assert_eq!(ids.last().map(String::as_str), Some("walk_round.walk"));
    assert_eq!(plan.proof, Proof::Exact);
}

#[test]
fn connecting_follows_from_the_same_clauses() {
    let vehicle = vehicle(&[]);
    let mut facts =
        vec![("handbrake.lever", "on"), ("post.supply", "live"), ("fridge.selector", "off")];
    for (variable, setting) in [
        ("post.switch", "off"),
        ("lead.coil", "stowed"),
        ("lead.vehicle_end", "out"),
        ("lead.post_end", "out"),
        ("inlet_flap.leaf", "shut"),
        ("mains_switch.lever", "off"),
        ("boiler.heat", "off"),
    ] {
        facts.push((variable, setting));
    }
    let (ids, _) = planned(&problem(&vehicle, "pitched_hookup", &facts));
    let order = [
        "lead.uncoil",
        "inlet_flap.open",
        "lead.connect_vehicle",
        "lead.plug_in",
        "post.switch_on",
        "mains_switch.switch_on",
        "mains_switch.test_rcd",
    ];
    let free_of_each_other = ["lead.uncoil", "inlet_flap.open"];
    let found = among(&ids, &order);
    assert_eq!(found[2..], order[2..]);
    assert!(found[..2].iter().all(|id| free_of_each_other.contains(id)));
}

#[test]
fn a_live_connector_in_the_grass_is_unplugged_at_the_post_first() {
    let vehicle = vehicle(&[]);
    let mut facts = HOOKED_UP.to_vec();
    facts.extend([
        ("lead.vehicle_end", "out"),
        ("mains_switch.lever", "off"),
        ("post.switch", "off"),
    ]);
    let mut question = problem(&vehicle, "pitched_hookup", &facts);
    question.zone = vehicle.variables[vehicle.variable("lead.vehicle_end").unwrap()].zone;
    let (ids, plan) = planned(&question);
    assert_eq!(ids[0], "lead.unplug");
    assert!(plan.cost.danger_s > 0);
}

#[test]
fn an_open_roof_light_on_the_road_means_stopping_first() {
    let vehicle = vehicle(&[]);
    let facts = [("engine.wheels", "moving"), ("engine.running", "on"), ("roof_bed.leaf", "open")];
    let (ids, plan) = planned(&problem(&vehicle, "ready_to_drive", &facts));
    assert_eq!(ids[0], "engine.stop");
    assert_eq!(plan.cost.danger_s, 30 + vehicle.walks.between(vehicle.home, 0));
}

#[test]
fn a_stuck_roof_light_is_the_reason_why_there_is_no_way() {
    let vehicle = vehicle(&[]);
    let mut question = problem(&vehicle, "ready_to_drive", &[("roof_bed.leaf", "open")]);
    question.stuck.insert(vehicle.variable("roof_bed.leaf").unwrap());
    let Outcome::Impossible(reasons) = plan(&question) else { panic!("there is a way") };
    let of: Vec<_> = reasons.iter().map(|number| &question.goals[*number].of).collect();
    let [GoalOf::Clause(number)] = of.as_slice() else { panic!("not one clause: {of:?}") };
    assert_eq!(vehicle.clauses[*number].id, "roof_light.open_on_the_road");
}

#[test]
fn what_is_not_known_is_looked_at_and_what_lacks_only_freshness_too() {
    let vehicle = vehicle(&["engine", "handbrake", "window", "drawers"]);
    let (ids, _) = planned(&problem(&vehicle, "ready_to_drive", &[("handbrake.lever", "on")]));
    let looks = ["window_galley.leaf.look", "window_bed.leaf.look", "drawers.catch.look"];
    assert_eq!(among(&ids, &looks).len(), 3);
    assert_eq!(ids.len(), 4, "and the walk round: {ids:?}");
}

#[test]
fn the_critical_comes_first_at_a_stop() {
    let vehicle = vehicle(&["engine", "handbrake", "window", "drawers", "gas_cylinder"]);
    let facts = [("window_galley.leaf", "open"), ("drawers.catch", "unlatched")];
    let (ids, _) = planned(&problem(&vehicle, "ready_to_drive", &facts));
    let both = among(&ids, &["window_galley.shut", "drawers.latch"]);
    assert_eq!(both, ["window_galley.shut", "drawers.latch"]);
}

/// Semantics 16: the search with its reductions gives what the plain search gives.
#[test]
fn the_free_step_reduction_changes_no_cost() {
    let small: &[&[&str]] = &[
        &["engine", "handbrake", "mains_lead", "inlet_flap", "main_switch"],
        &["engine", "handbrake", "boiler", "pump", "fresh_tank", "gas_cylinder", "window"],
        &["engine", "handbrake", "fridge_three_way", "gas_cylinder", "roof_light", "entrance_step"],
        &["engine", "handbrake", "waste_tank", "waste_hose", "drawers", "roof_light"],
    ];
    let mut compared = 0;
    for kinds in small {
        let vehicle = vehicle(kinds);
        for target in ["ready_to_drive", "pitched_hookup", "pitched_offgrid"] {
            let known: Vec<_> = HOOKED_UP
                .iter()
                .copied()
                .filter(|(variable, _)| vehicle.variable(variable).is_ok())
                .collect();
            for facts in [&[][..], &known] {
                let question = problem(&vehicle, target, facts).with_ways_out();
                let reduced = cost(&search_with(&question, true, WORK_MAX));
                let plain = cost(&search_with(&question, false, 4 * WORK_MAX));
                assert_eq!(reduced, plain, "{kinds:?} {target}");
                compared += usize::from(reduced.is_some());
            }
        }
    }
    assert!(compared >= 12, "only {compared} plans compared");
}

fn cost(found: &Found) -> Option<Cost> {
    match found {
        Found::Plan(plan) => {
            assert_eq!(plan.proof, Proof::Exact);
            Some(plan.cost)
        }
        Found::Nothing => None,
        Found::CutShort => panic!("cut short"),
    }
}

#[test]
fn a_boiler_cools_while_the_rest_is_done() {
    let vehicle = vehicle(&[]);
    let facts = [
        ("boiler.heat", "electric"),
        ("boiler.drain", "shut"),
        ("tap_galley.lever", "hot"),
        ("roof_bed.leaf", "open"),
    ];
    let mut question = problem(&vehicle, "ready_to_drive", &facts);
    let wanted = [("boiler.drain", "open"), ("boiler.heat", "off"), ("roof_bed.leaf", "shut")];
    let goal = |(variable, setting): &(&str, &str)| {
        let variable = vehicle.variable(variable).unwrap();
        let settings = Settings::one(vehicle.setting(variable, setting).unwrap());
        let any_of = vec![Literal { variable, settings }];
        Goal { of: GoalOf::Condition, any_of, fresh: false, severity: Severity::Damage }
    };
    question.goals = wanted.iter().map(goal).collect();
    let (ids, plan) = planned(&question);
    assert_eq!(
        ids,
        ["boiler.switch_off", "roof_bed.shut", "boiler.heat.cool_min.wait", "boiler.open_drain"]
    );
    let walk_s = |from: &str, to: &str| {
        let zone = |id: &str| vehicle.zones.iter().position(|one| one.id == id).unwrap();
        vehicle.walks.between(zone(from), zone(to))
    };
    let meanwhile_s = walk_s("lounge", "bed") + 15;
    assert_eq!(plan.wait_s.values().copied().collect::<Vec<_>>(), [3_600 - meanwhile_s]);
    assert_eq!(plan.cost.elapsed_s, walk_s("door", "lounge") + 5 + 3_600 + 10);
}
