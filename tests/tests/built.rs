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
use stowfast_tests::built::{Built, LARGE, SMALL, Size, Step, as_built, at_random};
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
    assert_eq!(plan.steps.len(), built.steps.len(), "{name}");
    println!("{name}: {} nodes, {:?}, {:?}", plan.nodes, plan.proof, plan.cost);
    plan
}

fn data(name: &str) -> String {
    format!("{}/data/{name}", env!("CARGO_MANIFEST_DIR"))
}

/// The sizes of vehicles, with the names of their files.
const SIZES: [(Size, &str); 2] = [(LARGE, "built"), (SMALL, "built_small")];

/// The data for the other solver is what is planned here; `UPDATE_GOLDEN=1` writes it anew.
#[test]
fn the_other_solver_has_the_same_vehicles() {
    for (size, name) in SIZES {
        let mut text = "seed;start;walks;steps (zone:seconds:after)\n".to_owned();
        for seed in SEEDS {
            _ = writeln!(text, "{seed};{}", as_built(seed, size).line());
        }
        let path = data(&format!("{name}.csv"));
        if std::env::var_os("UPDATE_GOLDEN").is_some() {
            std::fs::write(&path, &text).unwrap();
        }
        assert!(text == std::fs::read_to_string(path).unwrap(), "{name}.csv is not what is built");
    }
}

/// The least walk, by Dijkstra 1959 over what is done and where one stands: nothing is estimated, and
/// all that can be done where one stands is done.
fn least(built: &Built) -> [u64; 3] {
    let (count, zones) = (built.steps.len(), built.zones);
    let mut way = vec![vec![u64::from(u32::MAX); zones]; zones];
    for zone in 0..zones {
        way[zone][zone] = 0;
    }
    for (from, to, seconds) in &built.walks {
        let shorter = way[*from][*to].min(u64::from(*seconds));
        (way[*from][*to], way[*to][*from]) = (shorter, shorter);
    }
    for via in 0..zones {
        for from in 0..zones {
            for to in 0..zones {
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
        for next in (0..zones).filter(|next| *next != zone) {
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

/// Walking time, zone changes and steps back of a plan that is proved to be the best.
fn proved(name: &str, built: &Built) -> [u64; 3] {
    let Plan { cost, proof, .. } = planned(name, built);
    assert_eq!(proof, Proof::Exact, "{name}");
    [cost.walk_s, cost.zone_changes, cost.backward].map(u64::from)
}

#[test]
fn vehicles_as_they_are_built_are_planned_with_proof() {
    for (size, name) in SIZES {
        for seed in SEEDS {
            let (name, built) = (format!("{name}, seed {seed}"), as_built(seed, size));
            assert_eq!(proved(&name, &built), least(&built), "{name}");
        }
    }
}

/// What CP-SAT found is no better, what it says that nothing is below is not above, and the small ones
/// it all solves, to the same.
#[test]
fn another_solver_finds_nothing_better() {
    for (size, name) in SIZES {
        let text = std::fs::read_to_string(data(&format!("{name}_cpsat.csv"))).unwrap();
        let mut solved = 0;
        for line in text.lines().skip(1) {
            let fields: Vec<&str> = line.split(';').collect();
            let number = |at: usize| -> u64 { fields[at].parse().unwrap() };
            let ours = proved(line, &as_built(number(0), size));
            let theirs = [number(2), number(3), number(4)];
            assert!(ours <= theirs && number(6) <= ours[0], "{line}: {ours:?}");
            if fields[5] == "OPTIMAL" {
                assert_eq!(ours, theirs, "{line}");
                solved += 1;
            }
        }
        assert_eq!(text.lines().count(), 1 + SEEDS.count(), "{name}");
        assert!(size.steps == LARGE.steps || solved == SEEDS.count(), "{name}: {solved}");
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
