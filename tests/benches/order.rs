//! Timings of the planner on large vehicles: `cargo bench -p stowfast-tests --bench order`.
#![allow(
    missing_docs,
    clippy::unwrap_used,
    clippy::print_stdout,
    clippy::disallowed_methods,
    reason = "a benchmark fails loudly and prints"
)]

use std::hint::black_box;
use std::time::{Duration, Instant};

use criterion::{Criterion, criterion_group, criterion_main};
use stowfast_core::routine::{Outcome, Plan, plan};
use stowfast_tests::built::{Built, LARGE, as_built, at_random};

/// Seeds of each kind of order.
const SEEDS: u64 = 20;
/// How often each is planned; the quickest counts, since the machine has other work too.
const TIMES: u32 = 3;

fn timed(built: &Built) -> (Duration, Plan) {
    let vehicle = built.vehicle().unwrap();
    let problem = built.problem(&vehicle).unwrap();
    let once = || {
        let began = Instant::now();
        let outcome = plan(black_box(&problem));
        (began.elapsed(), outcome)
    };
    let (took, outcome) = (0..TIMES).map(|_| once()).min_by_key(|(took, _)| *took).unwrap();
    let Outcome::Plan(plan) = outcome else { unreachable!("every order has a plan") };
    (took, plan)
}

/// Prints nodes, time and gap of twenty seeds.
fn table(name: &str, each: impl Fn(u64) -> Built) {
    let mut all: Vec<(Duration, Plan)> = (0..SEEDS).map(|seed| timed(&each(seed))).collect();
    for (seed, (took, plan)) in all.iter().enumerate() {
        println!("{name}, seed {seed}: {took:?}, {} nodes, {:?}", plan.nodes, plan.proof);
    }
    all.sort_by_key(|(took, _)| *took);
    let exact = all.iter().filter(|(_, plan)| plan.proof == stowfast_core::routine::Proof::Exact);
    println!(
        "{name}: median {:?}, worst {:?}, exact {} of {SEEDS}",
        all.get(all.len() / 2).unwrap().0,
        all.last().unwrap().0,
        exact.count()
    );
}

fn orders(bench: &mut Criterion) {
    table("as built", |seed| as_built(seed, LARGE));
    for (density, once_in) in [("0.02", 50), ("0.05", 20), ("0.1", 10), ("0.2", 5)] {
        table(&format!("density {density}"), |seed| at_random(seed, once_in));
    }
    let built = as_built(0, LARGE);
    let vehicle = built.vehicle().unwrap();
    let problem = built.problem(&vehicle).unwrap();
    bench.bench_function("plan sixty steps in twelve zones, as built", |b| {
        b.iter(|| plan(black_box(&problem)));
    });
}

criterion_group!(benches, orders);
criterion_main!(benches);
