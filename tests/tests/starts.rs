//! Starts that were once too much for the planner: each is planned exactly, or refused with its
//! reason, within the nodes that one answer may take.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stdout,
    reason = "a test may fail loudly"
)]

use stowfast_core::routine::{Outcome, Problem, Proof, plan};
use stowfast_core::vehicle::Vehicle;
use stowfast_tests::question::{self, A as PACK, HOOKED_UP, asked, assumed, vehicle};

const TARGETS: [&str; 3] = ["ready_to_drive", "pitched_hookup", "pitched_offgrid"];

/// The problem where everything but `facts` is as unknown as on the first day.
fn problem<'a>(
    vehicle: &'a Vehicle,
    target: &str,
    facts: &[(&str, &str)],
    stuck: &[&str],
) -> Problem<'a> {
    let goals = asked(vehicle, target, &[]);
    let stuck = stuck.iter().map(|one| vehicle.variable(one).unwrap()).collect();
    Problem { stuck, ..question::problem(vehicle, assumed(vehicle, facts), goals) }
}

/// An exact plan, or that there is none.
fn is_settled(name: &str, problem: &Problem) {
    match plan(problem) {
        Outcome::Plan(plan) => {
            println!("{name}: {} steps, {} nodes", plan.steps.len(), plan.nodes);
            assert_eq!(plan.proof, Proof::Exact, "{name}");
        }
        Outcome::Impossible(goals) => println!("{name}: impossible, by {} goals", goals.len()),
        Outcome::NotFound => panic!("{name}: cut short"),
    }
}

fn every_target(name: &str, vehicle: &Vehicle, facts: &[(&str, &str)]) {
    for target in TARGETS {
        is_settled(&format!("{name}, {target}"), &problem(vehicle, target, facts, &[]));
    }
}

/// `HOOKED_UP` with other facts in place of some of it.
fn hooked_up_but<'a>(facts: &[(&'a str, &'a str)]) -> Vec<(&'a str, &'a str)> {
    let other = |known: &str| facts.iter().any(|(variable, _)| *variable == known);
    let rest = HOOKED_UP.iter().filter(|(variable, _)| !other(variable));
    rest.chain(facts).copied().collect()
}

#[test]
fn little_is_known() {
    let vehicle = vehicle(PACK);
    every_target("nothing known", &vehicle, &[]);
    every_target("post live", &vehicle, &[("post.supply", "live")]);
    every_target("hooked up", &vehicle, HOOKED_UP);
}

#[test]
fn much_is_fitted() {
    let fitted = |line: &str, count: usize| {
        let more = (0..count)
            .map(|n| format!("\n[[fitting]]\nid = \"more_{n}\"\ntitle = \"another {n}\"\n{line}"));
        vehicle(&format!("{PACK}{}", more.collect::<String>()))
    };
    let cylinders = fitted("kind = \"gas_cylinder\"\nzone = \"nearside\"\n", 8);
    let windows = fitted("kind = \"window\"\nzone = \"lounge\"\n", 20);
    let boilers = fitted("kind = \"boiler\"\nzone = \"bed\"\n", 1);
    for (name, vehicle) in [("cylinders", cylinders), ("windows", windows), ("boilers", boilers)] {
        every_target(&format!("{name}, nothing known"), &vehicle, &[]);
        every_target(&format!("{name}, hooked up"), &vehicle, HOOKED_UP);
    }
}

#[test]
fn the_fridge_is_another() {
    let fridge = "values = { gas_delay_min = 20, dc_w = 4, dc_heat_w = 135 }";
    assert!(PACK.contains(fridge));
    let without = |settings: &str| {
        vehicle(&PACK.replace(fridge, &format!("without = {{ selector = [{settings}] }}")))
    };
    let flat = hooked_up_but(&[("fridge.selector", "dc"), ("engine.running", "off")]);
    every_target("manual, on 12 V, engine off", &without("\"auto\""), &flat);
    every_target("gas only", &without("\"auto\", \"mains\", \"dc\""), HOOKED_UP);
}

#[test]
fn something_is_broken_or_stuck() {
    let vehicle = vehicle(PACK);
    let grass = hooked_up_but(&[("lead.vehicle_end", "out")]);
    let stuck: [&[&str]; 3] = [&[], &["lead.post_end"], &["lead.post_end", "lead.vehicle_end"]];
    for target in TARGETS {
        for stuck in stuck {
            let name = format!("connector in the grass, stuck {stuck:?}, {target}");
            is_settled(&name, &problem(&vehicle, target, &grass, stuck));
        }
        let name = format!("post switch stuck, {target}");
        is_settled(&name, &problem(&vehicle, target, HOOKED_UP, &["post.switch"]));
    }
}
