//! Where there is no way, and why: told at a glance, by the rules and facts that keep it so.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test may fail loudly"
)]

use std::collections::BTreeMap;

use stowfast_core::catalogue::Severity;
use stowfast_core::engine::{OrderProof, RoutinePage};
use stowfast_core::interlock::{Goal, GoalOf};
use stowfast_core::routine::{Cost, Outcome, Plan, Proof, plan};
use stowfast_tests::checker::{Violation, check};
use stowfast_tests::oracle::{Answer, solve};
use stowfast_tests::owner::{at, demo_of, ids};
use stowfast_tests::question::{self, C, literal, vehicle};

/// The way to a target just after a demo vehicle has come to a ferry lane.
fn at_the_ferry(demo: &str, target: &str) -> RoutinePage {
    let mut engine = demo_of(demo);
    engine.arrive_at("ferry", &at(1)).unwrap();
    engine.preview(target, &at(1)).unwrap()
}

fn as_plan(steps: &[usize]) -> Plan {
    let (steps, wait_s, cost) = (steps.to_vec(), BTreeMap::new(), Cost::default());
    Plan { steps, wait_s, cost, proof: Proof::Exact, nodes: 0 }
}

/// The wheels turn when one drives off, and that is no step on the way to anything: neither the
/// planner nor the oracle does it.
#[test]
fn no_routine_leaves_the_place() {
    let vehicle = vehicle(C);
    let beliefs = question::usual(&vehicle);
    let still = vehicle.standing_still().unwrap();
    let (number, drive_off) = vehicle.action("engine.drive_off").unwrap();
    assert!(drive_off.leaves && drive_off.effects.iter().any(|one| one.variable == still.variable));
    let goal = Goal {
        of: GoalOf::Target("moving".to_owned()),
        any_of: vec![literal(&vehicle, ("engine.wheels", "moving"))],
        fresh: false,
        severity: Severity::Damage,
    };
    let problem = question::problem(&vehicle, beliefs, vec![goal]);
    assert_eq!(plan(&problem), Outcome::Impossible(vec![0]));
    let drives = |plan: &[usize]| check(&problem, &as_plan(plan)).contains(&Violation::Leaves(0));
    assert!(drives(&[number]), "the checker reads the same data");
    assert!(!matches!(solve(&problem, 2_000), Answer::Possible { .. }));
}

/// A fridge on automatic lights by itself once a cylinder is open, which a ferry forbids: the cylinder
/// stays shut, that is said, and the rest is planned.
#[test]
fn where_no_flame_may_be_the_cylinder_stays_shut_and_the_rest_is_planned() {
    let page = at_the_ferry("c", "pitched_offgrid");
    assert_eq!(page.proof, OrderProof::Exact);
    let said = page.impossible.join("\n");
    assert!(
        said.contains("These do not go together") && !said.contains("No way was found"),
        "{said}"
    );
    let steps = ids(&page);
    assert!(!steps.contains(&"gas_right.open") || steps.contains(&"fridge.set_off"), "{steps:?}");
}

/// Nothing empties the toilet cassette where there is no point for it, so its blade cannot be left
/// ajar for the winter: only that is given up.
#[test]
fn a_blade_that_waits_for_an_empty_cassette_is_no_reason_to_give_up_the_lay_up() {
    let page = at_the_ferry("b", "laid_up_winter");
    assert_ne!(page.proof, OrderProof::None);
    let said = page.impossible.join("\n");
    assert!(said.contains("toilet") && !said.contains("No way was found"), "{said}");
    let steps = ids(&page);
    assert!(steps.contains(&"heater.switch_off") && steps.contains(&"fresh.open_drain"));
}
