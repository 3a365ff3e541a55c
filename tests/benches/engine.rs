//! Timings of what an owner waits for: `cargo bench -p stowfast-tests`.
#![allow(
    missing_docs,
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    reason = "a benchmark fails loudly"
)]

use std::fmt::Write as _;
use std::hint::black_box;

use criterion::{BatchSize, Criterion, criterion_group, criterion_main};
use stowfast_core::catalogue::Catalogue;
use stowfast_core::clock::Stamp;
use stowfast_core::engine::Engine;
use stowfast_core::interlock::{goals, verdict};
use stowfast_core::pack;
use stowfast_core::vehicle::{Settings, Vehicle};

const PACK: &str = include_str!("../../demo-data/a/pack.toml");

fn now() -> Stamp {
    Stamp::utc(1_800_000_000_000)
}

/// Vehicle (a) on a pitch with hook-up, on a real file.
fn on_a_file() -> (tempfile::TempDir, Engine) {
    let folder = tempfile::tempdir().unwrap();
    let mut engine = Engine::open(&folder.path().join("trip.db"), "en", &now()).unwrap();
    engine.add_demo("a", &now()).unwrap();
    engine.open_run("ready_to_drive", &now()).unwrap();
    (folder, engine)
}

fn engine(bench: &mut Criterion) {
    bench.bench_function("plan and word the leaving of vehicle (a)", |b| {
        b.iter_batched(
            on_a_file,
            |(folder, engine)| {
                engine.preview(black_box("ready_to_drive"), &now()).unwrap();
                (folder, engine)
            },
            BatchSize::PerIteration,
        );
    });
    let (_folder, engine) = on_a_file();
    bench.bench_function("now page of vehicle (a), with its plan kept", |b| {
        b.iter(|| engine.now_page(black_box(&now())).unwrap());
    });
    bench.bench_function("tick on a file", |b| {
        b.iter_batched(
            on_a_file,
            |(folder, mut engine)| {
                engine.tick("step.in", &now()).unwrap();
                (folder, engine)
            },
            BatchSize::PerIteration,
        );
    });
}

/// Vehicle (a) after 300 routines of 65 steps, as a file.
fn years() -> String {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo("a", &now()).unwrap();
    let text = engine.export_text().unwrap();
    let mut log = text.trim_end_matches("\n]}\n]}\n").to_owned();
    let (mut seq, mut run) = (engine.log(1).unwrap()[0].entry, 0);
    for step in 0..300 * 67 {
        seq += 1;
        let utc_ms = now().utc_ms + seq * 10_000;
        let facts = "{\"variable\":\"step.step\",\"settings\":[\"in\"],\"how\":\"done\"}";
        let said = match step % 67 {
            0 => "\"act\":\"open\",\"target\":\"ready_to_drive\"".to_owned(),
            66 => format!("\"run\":{run},\"act\":\"close\""),
            _ => format!("\"run\":{run},\"act\":\"tick\",\"step\":\"step.in\",\"facts\":[{facts}]"),
        };
        run = if step % 67 == 0 { seq } else { run };
        write!(log, ",\n{{\"entry\":{seq},\"utc_ms\":{utc_ms},{said}}}").unwrap();
    }
    log + "\n]}\n]}\n"
}

fn export(bench: &mut Criterion) {
    let text = years();
    let mut group = bench.benchmark_group("20,000 entries");
    group.sample_size(10);
    let import = |text: &str| {
        let folder = tempfile::tempdir().unwrap();
        let mut engine = Engine::open(&folder.path().join("trip.db"), "en", &now()).unwrap();
        engine.import(text.as_bytes(), "years.json").unwrap();
        (folder, engine)
    };
    group.bench_function("import into a file", |b| b.iter(|| import(black_box(&text))));
    let (_folder, engine) = import(&text);
    assert!(engine.export_text().unwrap() == text);
    group.bench_function("export", |b| b.iter(|| engine.export_text().unwrap()));
    group.finish();
}

fn rules(bench: &mut Criterion) {
    let catalogue = Catalogue::built_in().unwrap();
    bench.bench_function("read the pack and make the vehicle", |b| {
        b.iter(|| {
            let pack = pack::read("a", black_box(PACK.as_bytes()), catalogue).unwrap();
            Vehicle::new(&pack, catalogue).unwrap()
        });
    });
    let pack = pack::read("a", PACK.as_bytes(), catalogue).unwrap();
    let vehicle = Vehicle::new(&pack, catalogue).unwrap();
    let asked = goals(&vehicle, catalogue.target("ready_to_drive").unwrap(), &[]).unwrap();
    let beliefs: Vec<Settings> = vehicle.variables.iter().map(|one| one.assume).collect();
    bench.bench_function("verdict on ready to drive", |b| {
        b.iter(|| verdict(&vehicle, &asked, black_box(&beliefs), |_| false));
    });
}

criterion_group!(benches, engine, export, rules);
criterion_main!(benches);
