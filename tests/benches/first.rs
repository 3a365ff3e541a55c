//! How long the page of reserves and what ends first take, with every what-if picked:
//! `cargo bench -p stowfast-tests --bench first`.
#![allow(missing_docs, clippy::unwrap_used, reason = "a benchmark fails loudly")]

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use stowfast_core::clock::Stamp;
use stowfast_core::engine::{Engine, GaugeUnit, Pick};

const DAY_MS: i64 = 86_400_000;

fn day(days: i64) -> Stamp {
    Stamp::utc(days.saturating_mul(DAY_MS).saturating_add(1_800_000_000_000))
}

/// Everything that can be picked of it.
fn every_change(engine: &Engine) -> Vec<Pick> {
    let page = engine.reckon("first", &[], &day(2)).unwrap();
    let change = page.choices.iter().find(|choice| choice.id == "change").unwrap();
    assert!(change.options.len() >= 4, "the vehicle has what changes touch");
    let pick = |id: &str| Pick { choice: "change".to_owned(), value: id.to_owned() };
    change.options.iter().map(|option| pick(&option.id)).collect()
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
    let picks = every_change(&engine);
    let first = || engine.reckon(black_box("first"), &picks, &day(2)).unwrap();
    bench.bench_function("what ends first on vehicle (c), every what-if picked", |b| {
        b.iter(first);
    });
    bench.bench_function("the page of reserves of vehicle (c)", |b| {
        b.iter(|| engine.reserves(black_box(&day(2))).unwrap());
    });
    bench.bench_function("both", |b| b.iter(|| (engine.reserves(&day(2)).unwrap(), first())));
}

criterion_group!(benches, first);
criterion_main!(benches);
