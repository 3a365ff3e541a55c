//! How long an owner waits for what is typed: `cargo bench -p stowfast-tests --bench find`.
#![allow(
    missing_docs,
    clippy::unwrap_used,
    clippy::string_slice,
    reason = "a benchmark fails loudly, and its words are plain letters"
)]

use std::hint::black_box;

use criterion::{BatchSize, Criterion, criterion_group, criterion_main};
use stowfast_core::clock::Stamp;
use stowfast_core::engine::Engine;

/// The largest vehicle, of which nobody has looked for anything.
fn vehicle() -> Engine {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo("c", &Stamp::utc(1_800_000_000_000)).unwrap();
    engine
}

/// Letter by letter, with errors, and as long as anybody types: each of these is one answer.
fn find(bench: &mut Criterion) {
    let mut group = bench.benchmark_group("find on vehicle (c)");
    let engine = vehicle();
    let typed = "hot water";
    let letters = (1..=typed.len()).map(|end| &typed[..end]);
    let more = ["s", "extinguisherr", "how do i stop the roof windw over the bed from leaking"];
    for asked in letters.chain(more) {
        group.bench_function(format!("{asked:?}"), |b| {
            b.iter(|| engine.find(black_box(asked)).unwrap());
        });
    }
    group.sample_size(10);
    group.bench_function("for the first time, with everything read", |b| {
        let ask = |engine: Engine| engine.find(black_box("h")).unwrap();
        b.iter_batched(vehicle, ask, BatchSize::PerIteration);
    });
    group.finish();
}

criterion_group!(benches, find);
criterion_main!(benches);
