//! How long what ends first takes, with every what-if: `cargo bench -p stowfast-tests --bench first`.
#![allow(missing_docs, clippy::unwrap_used, reason = "a benchmark fails loudly")]

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use stowfast_core::clock::Stamp;
use stowfast_core::engine::{Engine, GaugeUnit};

const DAY_MS: i64 = 86_400_000;

fn day(days: i64) -> Stamp {
    Stamp::utc(days.saturating_mul(DAY_MS).saturating_add(1_800_000_000_000))
}

/// The largest vehicle, with all told and read that its reserves rest on.
fn vehicle() -> Engine {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo("c", &day(0)).unwrap();
    for (figure, value) in [
        ("people", 3.0),
        ("showers_a_day", 2.0),
        ("shower_l", 12.0),
        ("flushes_a_day", 5.0),
        ("flush_l", 0.5),
    ] {
        engine.tell_figure(figure, Some(value), &day(1)).unwrap();
    }
    for (days, fresh, waste, gas) in [(1, 90.0, 20.0, 70.0), (2, 70.0, 45.0, 62.0)] {
        for (gauge, percent) in [("fresh", fresh), ("waste", waste), ("gas_left", gas)] {
            engine.enter_reading(gauge, GaugeUnit::Percent, percent, &day(days)).unwrap();
        }
    }
    engine
}

fn first(bench: &mut Criterion) {
    let engine = vehicle();
    bench.bench_function("what ends first on vehicle (c), with what-ifs", |b| {
        b.iter(|| engine.reckon(black_box("first"), &[], &day(2)).unwrap());
    });
}

criterion_group!(benches, first);
criterion_main!(benches);
