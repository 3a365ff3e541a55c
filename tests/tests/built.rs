//! Large vehicles as they are built: the planner finds the optimum, with proof.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    clippy::print_stdout,
    clippy::as_conversions,
    clippy::needless_range_loop,
    reason = "a test may fail loudly"
)]

use std::cmp::Reverse;
use std::collections::{BinaryHeap, HashMap};
use std::fmt::Write as _;

use stowfast_core::routine::{Outcome, Plan, Proof, plan};
use stowfast_tests::built::{Built, STEPS, Step, ZONES, as_built, at_random};
use stowfast_tests::checker::check;

/// Seeds of vehicles as they are built.
const SEEDS: std::ops::Range<u64> = 0..20;
/// Random orders: each step waits for each earlier one once in so many times.
const ONCE_IN: [usize; 4] = [50, 20, 10, 5];

fn planned(name: &str, built: &Built) -> Plan {
    let vehicle = built.vehicle().unwrap_or_else(|why| panic!("{name}: {why:?}"));
    let problem = built.problem(&vehicle).unwrap();
    let Outcome::Plan(plan) = plan(&problem) else { panic!("{name}: no plan") };
    assert_eq!(check(&problem, &plan), [], "{name}");
    assert_eq!(plan.steps.len(), STEPS, "{name}");
    println!("{name}: {} nodes, {:?}, {:?}", plan.nodes, plan.proof, plan.cost);
    plan
}

/// The data for the other solver is what is planned here; `UPDATE_GOLDEN=1` writes it anew.
#[test]
fn the_other_solver_has_the_same_vehicles() {
    let mut text = "seed;start;walks;steps (zone:seconds:after)\n".to_owned();
    for seed in SEEDS {
        _ = writeln!(text, "{seed};{}", as_built(seed).line());
    }
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/data/built.csv");
    if std::env::var_os("UPDATE_GOLDEN").is_some() {
        std::fs::write(path, &text).unwrap();
    }
    assert!(text == std::fs::read_to_string(path).unwrap(), "built.csv is not what is built");
}

/// The least walk, by Dijkstra 1959 over what is done and where one stands: nothing is estimated, and
/// all that can be done where one stands is done.
fn least(built: &Built) -> [u64; 3] {
    let count = built.steps.len();
    let mut way = vec![vec![u64::from(u32::MAX); ZONES]; ZONES];
    for zone in 0..ZONES {
        way[zone][zone] = 0;
    }
    for (from, to, seconds) in &built.walks {
        let shorter = way[*from][*to].min(u64::from(*seconds));
        (way[*from][*to], way[*to][*from]) = (shorter, shorter);
    }
    for via in 0..ZONES {
        for from in 0..ZONES {
            for to in 0..ZONES {
                way[from][to] = way[from][to].min(way[from][via] + way[via][to]);
            }
        }
    }
    let after = |step: &Step| step.after.iter().fold(0_u64, |set, one| set | 1 << one);
    let steps: Vec<(usize, u64)> = built.steps.iter().map(|one| (one.zone, after(one))).collect();
    let closed = |mut done: u64, zone: usize| loop {
        let ready = |number: &usize| {
            let (place, after) = steps[*number];
            place == zone && done >> number & 1 == 0 && after & !done == 0
        };
        let more = (0..count).filter(ready).fold(done, |set, number| set | 1 << number);
        if more == done {
            break done;
        }
        done = more;
    };
    let start = (closed(0, built.zone), built.zone);
    let mut best = HashMap::from([(start, [0; 3])]);
    let mut open = BinaryHeap::from([Reverse(([0; 3], start))]);
    while let Some(Reverse((cost, (done, zone)))) = open.pop() {
        if done.count_ones() as usize == count {
            return cost;
        }
        if best[&(done, zone)] < cost {
            continue;
        }
        for next in (0..ZONES).filter(|next| *next != zone) {
            let then = closed(done, next);
            let [walk_s, changes, backward] = cost;
            let cost = [walk_s + way[zone][next], changes + 1, backward + u64::from(next < zone)];
            let known = best.entry((then, next)).or_insert([u64::MAX; 3]);
            if then != done && cost < *known {
                *known = cost;
                open.push(Reverse((cost, (then, next))));
            }
        }
    }
    panic!("no order");
}

#[test]
fn vehicles_as_they_are_built_are_planned_with_proof() {
    for seed in SEEDS {
        let built = as_built(seed);
        let Plan { cost, proof, .. } = planned(&format!("seed {seed}"), &built);
        assert_eq!(proof, Proof::Exact, "seed {seed}");
        let found = [cost.walk_s, cost.zone_changes, cost.backward].map(u64::from);
        assert_eq!(found, least(&built), "seed {seed}");
    }
}

/// What CP-SAT found in five minutes is no better, and the same where it is sure.
#[test]
fn another_solver_finds_nothing_better() {
    let lines = include_str!("../data/built_cpsat.csv").lines().skip(1);
    for line in lines {
        let fields: Vec<&str> = line.split(';').collect();
        let [seed, theirs @ ..]: [u32; 5] = std::array::from_fn(|at| fields[at].parse().unwrap());
        let Plan { cost, proof, .. } = planned(line, &as_built(u64::from(seed)));
        let ours = [cost.elapsed_s, cost.walk_s, cost.zone_changes, cost.backward];
        assert_eq!(proof, Proof::Exact);
        assert!(ours <= theirs && (fields[5] != "OPTIMAL" || ours == theirs), "{line}: {ours:?}");
    }
}

/// Orders that no vehicle has: a plan is found all the same, and says how far it may be off.
#[test]
fn random_orders_have_a_plan_with_a_stated_gap() {
    for once_in in ONCE_IN {
        for seed in 0..5 {
            let plan = planned(&format!("1/{once_in}, seed {seed}"), &at_random(seed, once_in));
            let Proof::Gap { seconds } = plan.proof else { continue };
            assert!(seconds <= plan.cost.walk_s, "the hands-on time is known");
        }
    }
}
