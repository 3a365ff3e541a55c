//! The order of hooking up and unhooking, held against the instructions for the user in BS 7671
//! section 721 (the order of the steps), and shown to come from one clause.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    reason = "a test may fail loudly"
)]

use stowfast_core::catalogue::Catalogue;
use stowfast_core::interlock::is_permitted;
use stowfast_core::pack;
use stowfast_core::routine::{Outcome, Plan, plan};
use stowfast_core::vehicle::{AgeOf, Settings, Vehicle};
use stowfast_tests::checker::check;
use stowfast_tests::oracle::{Answer, solve};
use stowfast_tests::question::{self, A, HOOKED_UP, asked, ids, problem, told};

/// The one rule that the order of the two ends follows from.
const RULE: &str = "mains_lead.live_connector";

/// Vehicle (a), with only the fittings that bear on the hook-up.
fn vehicle(with_rule: bool) -> Vehicle {
    let catalogue = Catalogue::built_in().unwrap();
    let mut pack = pack::read("a", A.as_bytes(), catalogue).unwrap();
    let kinds = ["engine", "handbrake", "mains_lead", "inlet_flap", "main_switch"];
    pack.fittings.retain(|one| kinds.contains(&one.kind.get_ref().as_str()));
    let mut vehicle = Vehicle::new(&pack, catalogue).unwrap();
    let rules = vehicle.clauses.len();
    if !with_rule {
        vehicle.clauses.retain(|clause| clause.id != RULE);
        assert!(vehicle.clauses.len() < rules, "there was no such rule");
    }
    vehicle
}

fn believing(vehicle: &Vehicle, facts: &[(&str, &str)]) -> Vec<Settings> {
    let old = Settings::one(AgeOf::OLD);
    let usual = vehicle.variables.iter().map(|one| one.age_of.map_or(one.assume, |_| old));
    told(vehicle, usual.collect(), facts)
}

const ARRIVED: &[(&str, &str)] = &[
    ("handbrake.lever", "on"),
    ("post.supply", "live"),
    ("post.switch", "off"),
    ("lead.coil", "stowed"),
    ("lead.vehicle_end", "out"),
    ("lead.post_end", "out"),
    ("inlet_flap.leaf", "shut"),
    ("mains_switch.lever", "off"),
];

/// The plan, checked by the independent checker and as cheap as the oracle says is possible.
fn planned(vehicle: &Vehicle, target: &str, facts: &[(&str, &str)]) -> (Vec<String>, Plan) {
    let goals = asked(vehicle, target, &[]);
    let problem = problem(vehicle, believing(vehicle, facts), goals);
    let Outcome::Plan(plan) = plan(&problem) else { panic!("no plan") };
    assert_eq!(check(&problem, &plan), []);
    match solve(&problem.with_ways_out(), 2_000_000) {
        Answer::Possible { cost, .. } => assert_eq!(plan.cost, cost),
        Answer::Impossible { .. } | Answer::TooLarge => panic!("the oracle found no way"),
    }
    (ids(vehicle, &plan), plan)
}

#[track_caller]
fn in_order(ids: &[String], order: &[&str]) {
    let found: Vec<&str> = ids.iter().map(String::as_str).filter(|id| order.contains(id)).collect();
    assert_eq!(found, order, "{ids:?}");
}

/// BS 7671 section 721: lead uncoiled, main switch off, connector into the vehicle, plug into the
/// supply, supply on, main switch on, residual-current device tested.
#[test]
fn connecting_in_the_published_order() {
    let (ids, _) = planned(&vehicle(true), "pitched_hookup", ARRIVED);
    let order = [
        "lead.uncoil",
        "lead.connect_vehicle",
        "lead.plug_in",
        "post.switch_on",
        "mains_switch.switch_on",
        "mains_switch.test_rcd",
    ];
    in_order(&ids, &order);
}

/// Found with the main switch on, it is switched off before either end is moved.
#[test]
fn the_main_switch_is_off_before_an_end_is_moved() {
    let facts = [ARRIVED, &[("mains_switch.lever", "on")]].concat();
    let (ids, _) = planned(&vehicle(true), "pitched_hookup", &facts);
    let order = [
        "mains_switch.switch_off",
        "lead.connect_vehicle",
        "lead.plug_in",
        "mains_switch.switch_on",
    ];
    in_order(&ids, &order);
}

/// BS 7671 section 721, the other way round: main switch off, supply off and plug out, connector
/// out, lead stowed; the flap is shut once the connector is out.
#[test]
fn leaving_in_the_published_order() {
    let (ids, _) = planned(&vehicle(true), "ready_to_drive", HOOKED_UP);
    let order = [
        "mains_switch.switch_off",
        "post.switch_off",
        "lead.unplug",
        "lead.disconnect_vehicle",
        "inlet_flap.shut",
        "lead.stow",
        "walk_round.walk",
    ];
    in_order(&ids, &order);
}

/// Without that one rule either end may come first; and since on this vehicle it is the shorter way,
/// the plug then does.
#[test]
fn without_the_one_rule_the_order_of_the_ends_is_free() {
    let ready = [ARRIVED, &[("lead.coil", "uncoiled"), ("inlet_flap.leaf", "open")]].concat();
    let orders =
        [["lead.connect_vehicle", "lead.plug_in"], ["lead.plug_in", "lead.connect_vehicle"]];
    let may = |vehicle: &Vehicle, order: &[&str; 2]| {
        let mut beliefs = believing(vehicle, &ready);
        order.iter().all(|id| {
            let (_, action) = vehicle.action(id).unwrap();
            let permitted = is_permitted(vehicle, &beliefs, action);
            for effect in &action.effects {
                beliefs[effect.variable] = action.outcome(effect, beliefs[effect.variable]);
            }
            permitted
        })
    };
    let (with, without) = (vehicle(true), vehicle(false));
    assert_eq!(orders.map(|order| may(&with, &order)), [true, false]);
    assert_eq!(orders.map(|order| may(&without, &order)), [true, true]);
    let (ids, free) = planned(&without, "pitched_hookup", ARRIVED);
    in_order(&ids, &["lead.plug_in", "lead.connect_vehicle"]);
    let (_, bound) = planned(&with, "pitched_hookup", ARRIVED);
    assert!(free.cost < bound.cost, "the rule costs some walking, and is kept");
}

/// Leaving, too: with the rule the connector stays in while the plug is in; without it, it may go.
#[test]
fn without_the_one_rule_the_connector_may_come_out_first() {
    let facts = [HOOKED_UP, &[("mains_switch.lever", "off"), ("post.switch", "off")]].concat();
    let may = |vehicle: &Vehicle| {
        let (_, action) = vehicle.action("lead.disconnect_vehicle").unwrap();
        is_permitted(vehicle, &believing(vehicle, &facts), action)
    };
    assert!(!may(&vehicle(true)));
    assert!(may(&vehicle(false)));
}

/// A plan for the whole vehicle, where it stands as usual but for some facts.
fn planned_for_all(vehicle: &Vehicle, target: &str, facts: &[(&str, &str)]) -> Vec<String> {
    let mut beliefs = believing(vehicle, facts);
    for (belief, known) in beliefs.iter_mut().zip(&vehicle.variables) {
        if belief.single().is_none() {
            *belief = Settings::one(known.usual);
        }
    }
    let problem = problem(vehicle, beliefs, asked(vehicle, target, &[]));
    let Outcome::Plan(plan) = plan(&problem) else { panic!("no plan") };
    assert_eq!(check(&problem, &plan), []);
    ids(vehicle, &plan)
}

/// BS 7671 section 721: loads off, then the main switch, then the supply and the plug.
#[test]
fn loads_are_off_before_the_main_switch() {
    let loads =
        [("boiler.heat", "electric"), ("boiler.water", "full"), ("fridge.selector", "mains")];
    let facts = [HOOKED_UP, &loads].concat();
    let vehicle = question::vehicle(A);
    for load in &loads {
        let alone = [HOOKED_UP, &[("boiler.heat", "off"), ("fridge.selector", "auto"), *load]];
        let (_, action) = vehicle.action("mains_switch.switch_off").unwrap();
        let may = is_permitted(&vehicle, &believing(&vehicle, &alone.concat()), action);
        assert_eq!(may, load.0 == "boiler.water", "{load:?}");
    }
    let ids = planned_for_all(&vehicle, "ready_to_drive", &facts);
    let first = |id: &str| ids.iter().position(|one| one == id).unwrap();
    assert!(first("boiler.switch_off") < first("mains_switch.switch_off"), "{ids:?}");
    let fridge = ids.iter().position(|id| id.starts_with("fridge.set")).unwrap();
    assert!(fridge < first("mains_switch.switch_off"), "{ids:?}");
    let order =
        ["mains_switch.switch_off", "post.switch_off", "lead.unplug", "lead.disconnect_vehicle"];
    in_order(&ids, &order);
}

/// A fridge that was left to choose for itself is not touched for hooking up: the device is tested
/// at the very next step. One set to mains by hand is switched off before, as any load.
#[test]
fn hooking_up_with_a_fridge_that_chooses_for_itself_takes_no_detour() {
    let vehicle = question::vehicle(A);
    let planned = |selector: &str| {
        let facts = [ARRIVED, &[("fridge.selector", selector)]].concat();
        planned_for_all(&vehicle, "pitched_hookup", &facts)
    };
    let touched = |ids: &[String]| ids.iter().filter(|id| id.starts_with("fridge.")).count();
    let ids = planned("auto");
    assert_eq!(touched(&ids), 0, "{ids:?}");
    let at = ids.iter().position(|id| id == "mains_switch.switch_on").unwrap();
    assert_eq!(ids[at + 1], "mains_switch.test_rcd");
    let ids = planned("mains");
    let off = ids.iter().position(|id| id.starts_with("fridge.set")).unwrap();
    let on = ids.iter().position(|id| id == "mains_switch.switch_on").unwrap();
    assert!(off < on, "{ids:?}");
}

/// BS 7671 section 721: the residual-current device is tested before anything is used.
#[test]
fn the_device_is_tested_before_loads() {
    let vehicle = question::vehicle(A);
    let known = [("boiler.water", "full"), ("boiler.drain", "shut"), ("boiler.cover", "off")];
    for (rcd, may) in [("untested", false), ("tested", true)] {
        let facts = [HOOKED_UP, &known, &[("mains_switch.rcd", rcd)]].concat();
        let (_, heat) = vehicle.action("boiler.heat_electric").unwrap();
        let (_, fridge) = vehicle.action("fridge.set_mains").unwrap();
        let beliefs = believing(&vehicle, &facts);
        for action in [heat, fridge] {
            assert_eq!(is_permitted(&vehicle, &beliefs, action), may, "{} {rcd}", action.id);
        }
    }
}
