//! How long one look of the live level takes: `cargo bench -p stowfast-tests --bench level`.
#![allow(missing_docs, clippy::unwrap_used, reason = "a benchmark fails loudly")]

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use stowfast_core::clock::Stamp;
use stowfast_core::engine::Engine;

fn level(bench: &mut Criterion) {
    let now = Stamp::utc(1_800_000_000_000);
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo("c", &now).unwrap();
    for (figure, value) in [
        ("ramps_count", 4.0),
        ("ramp_low_mm", 40.0),
        ("ramp_middle_mm", 80.0),
        ("ramp_high_mm", 120.0),
    ] {
        engine.tell_figure(figure, Some(value), &now).unwrap();
    }
    let mut level = engine.level(&now).unwrap();
    bench.bench_function("a look at a phone that lies still", |b| {
        b.iter(|| level.feel(black_box([0.1, 0.3, 9.8])));
    });
    // Smoothed, these move what is shown at every look.
    let (mut level, mut at) = (engine.level(&now).unwrap(), 0.0_f64);
    bench.bench_function("a look that changes all that is shown", |b| {
        b.iter(|| {
            at = if at > 0.0 { -0.24 } else { 0.24 };
            level.feel(black_box([0.1, at, 9.8]))
        });
    });
}

criterion_group!(benches, level);
criterion_main!(benches);
