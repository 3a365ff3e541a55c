//! Timings of what to run when on a pitch's supply: `cargo bench -p stowfast-tests --bench supply`.
#![allow(
    missing_docs,
    clippy::unwrap_used,
    clippy::arithmetic_side_effects,
    clippy::print_stdout,
    clippy::disallowed_methods,
    reason = "a benchmark fails loudly and prints"
)]

use std::hint::black_box;
use std::time::{Duration, Instant};

use criterion::{Criterion, criterion_group, criterion_main};
use stowfast_core::reckon::supply::schedule::{Day, Job, plan};

/// Twelve appliances of a day in steps of five minutes: mA at the most, steps, whether it may pause.
const WANTED: [(u32, u32, bool); 12] = [
    (11_000, 1, false), // kettle
    (4_700, 3, false),  // coffee
    (4_500, 1, false),  // toaster
    (9_000, 2, false),  // hair dryer
    (6_000, 9, false),  // hob
    (7_200, 3, false),  // microwave
    (380, 36, true),    // laptop
    (1_160, 48, true),  // bicycles
    (4_600, 4, false),  // vacuum cleaner
    (10_000, 24, true), // fan heater
    (9_300, 12, true),  // boiler, high
    (3_800, 18, true),  // something at low power
];
const DAY: u32 = 288;
/// Days of each sort.
const SEEDS: u32 = 200;

/// What a day's numbers are drawn from.
struct Dice(u32);

impl Dice {
    fn of(seed: u32) -> Self {
        Self(seed.wrapping_mul(2_654_435_761).wrapping_add(12_345))
    }

    fn below(&mut self, most: u32) -> u32 {
        self.0 = self.0.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        (self.0 >> 8) % most.max(1)
    }
}

/// A day on which `share` in ten are wanted at a time of their own, the rest by `latest`.
fn day(seed: u32, share: u32, latest: u32) -> Vec<Job> {
    let mut dice = Dice::of(seed);
    let mut draw = |most: u32| dice.below(most);
    let mut id = 0;
    WANTED
        .map(|(draw_ma, ticks, pauses)| {
            id += 1;
            let draw_ma = draw_ma * (80 + draw(40)) / 100;
            let earliest = if draw(10) < share { draw(latest - ticks) } else { 0 };
            let room = latest - ticks - earliest;
            let latest = if draw(10) < share { earliest + ticks + draw(room) } else { latest };
            Job { id, draw_ma, ticks, earliest, latest, pauses }
        })
        .to_vec()
}

/// Twelve of any draw, length and time, with `busy` hundredths of what the day can give.
fn any_day(seed: u32, limit_ma: u32, busy: u32, latest: u32) -> Vec<Job> {
    let mut dice = Dice::of(seed);
    let mut draw = |most: u32| dice.below(most);
    let share = latest * busy * 2 / 100 / 12 * 2;
    let job = |id| {
        let (draw_ma, ticks) = (1 + draw(limit_ma), 1 + draw(share.min(latest)));
        let earliest = if draw(2) == 0 { 0 } else { draw(latest - ticks + 1) };
        let room = latest - ticks - earliest;
        let latest = if draw(2) == 0 { latest } else { earliest + ticks + draw(room + 1) };
        Job { id, draw_ma, ticks, earliest, latest, pauses: draw(2) == 0 }
    };
    (1..=12).map(job).collect()
}

fn table(name: &str, limit_ma: u32, day: impl Fn(u32) -> Vec<Job>) {
    let timed = |seed| {
        let jobs = day(seed);
        let once = || {
            let began = Instant::now();
            (plan(limit_ma, black_box(&jobs)).unwrap(), began.elapsed())
        };
        (0..3).map(|_| once()).min_by_key(|(_, took)| *took).unwrap()
    };
    let mut all: Vec<(Day, Duration)> = (0..SEEDS).map(timed).collect();
    all.sort_by_key(|(_, took)| *took);
    let (half, nearly) = (all.len() / 2, all.len() * 95 / 100);
    let took = |at: usize| all.get(at).unwrap().1;
    let proven = all.iter().filter(|(day, _)| day.proven).count();
    let soonest = all.iter().filter(|(day, _)| day.soonest).count();
    println!(
        "{name}: median {:?}, of a hundred 95 within {:?}, worst {:?}, proven {proven}, soonest {soonest} of {SEEDS}",
        took(half),
        took(nearly),
        took(all.len() - 1),
    );
}

fn days(bench: &mut Criterion) {
    for (amperes, limit_ma) in [(6, 6_280), (10, 10_800), (16, 17_580)] {
        let table = |name: &str, share, latest| {
            table(&format!("{amperes} A, {name}"), limit_ma, |seed| day(seed, share, latest));
        };
        table("by the evening", 0, DAY);
        table("half at times of their own", 5, DAY);
        table("six hours, half at times of their own", 5, DAY / 4);
    }
    for (hours, latest) in [(24, DAY), (6, DAY / 4), (2, DAY / 12)] {
        for busy in [60, 90, 120, 200] {
            let name = format!("anything, {busy} % of {hours} h");
            table(&name, 10_800, |seed| any_day(seed, 10_800, busy, latest));
        }
    }
    let jobs = day(1, 5, DAY);
    bench.bench_function("share out twelve appliances over a day on 10 A", |b| {
        b.iter(|| plan(10_800, black_box(&jobs)));
    });
}

criterion_group!(benches, days);
criterion_main!(benches);
