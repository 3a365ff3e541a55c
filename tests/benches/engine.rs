//! Timings of what an owner waits for: `cargo bench -p stowfast-tests`.
#![allow(
    missing_docs,
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    reason = "a benchmark fails loudly"
)]

use std::fmt::Write as _;
use std::fs::DirEntry;
use std::hint::black_box;
use std::path::PathBuf;
use std::process::Command;

use criterion::{BatchSize, Criterion, criterion_group, criterion_main};
use stowfast_core::catalogue::Catalogue;
use stowfast_core::clock::Stamp;
use stowfast_core::engine::Engine;
use stowfast_core::interlock::{goals, verdict};
use stowfast_core::pack;
use stowfast_core::vehicle::{Settings, Vehicle};

/// The smallest and the largest vehicle.
const PACKS: [(&str, &str); 2] = [
    ("a", include_str!("../../demo-data/a/pack.toml")),
    ("c", include_str!("../../demo-data/c/pack.toml")),
];

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

/// The built-in catalogue, file by file.
fn catalogue_files() -> Vec<(String, String)> {
    let root = concat!(env!("CARGO_MANIFEST_DIR"), "/../core/catalogue");
    let in_folder = |folder: &str| {
        let files = std::fs::read_dir(format!("{root}/{folder}")).unwrap();
        let name = |file: &DirEntry| format!("{folder}/{}", file.file_name().to_str().unwrap());
        let read = |file: DirEntry| (name(&file), std::fs::read_to_string(file.path()).unwrap());
        files.map(|file| read(file.unwrap())).collect::<Vec<_>>()
    };
    ["kinds", "targets", "alerts", "local", "text/en"].into_iter().flat_map(in_folder).collect()
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
        engine.import(text.as_bytes(), "years.json", &now()).unwrap();
        (folder, engine)
    };
    group.bench_function("import into a file", |b| b.iter(|| import(black_box(&text))));
    let (_folder, engine) = import(&text);
    assert!(engine.export_text().unwrap() == text);
    group.bench_function("export", |b| b.iter(|| engine.export_text().unwrap()));
    group.finish();
}

fn rules(bench: &mut Criterion) {
    let files = catalogue_files();
    let files: Vec<(&str, &str)> =
        files.iter().map(|(path, text)| (path.as_str(), text.as_str())).collect();
    bench.bench_function("read the catalogue", |b| {
        b.iter(|| Catalogue::from_files(black_box(&files)).unwrap());
    });
    let catalogue = Catalogue::built_in().unwrap();
    for (id, text) in PACKS {
        let read = || {
            let pack = pack::read(id, black_box(text.as_bytes()), catalogue).unwrap();
            Vehicle::new(&pack, catalogue).unwrap()
        };
        bench.bench_function(&format!("read the pack and make vehicle ({id})"), |b| b.iter(read));
        let vehicle = read();
        let asked = goals(&vehicle, catalogue.target("ready_to_drive").unwrap(), &[]).unwrap();
        let beliefs: Vec<Settings> = vehicle.variables.iter().map(|one| one.assume).collect();
        bench.bench_function(&format!("verdict on ready to drive, vehicle ({id})"), |b| {
            b.iter(|| verdict(&vehicle, &asked, black_box(&beliefs), |_| false));
        });
    }
}

/// The command, built as it is timed, beside the program that times it.
fn command() -> PathBuf {
    let own = std::env::current_exe().unwrap();
    let target = own.ancestors().nth(3).unwrap();
    let built = Command::new(env!("CARGO"))
        .args(["build", "--release", "-p", "stowfast-core", "--features", "cli", "--target-dir"])
        .arg(target)
        .status();
    assert!(built.unwrap().success(), "the command is built");
    target.join("release/stowfast")
}

/// From the start of a process to its end, which is no sooner than its first output.
fn start(bench: &mut Criterion) {
    let (command, (folder, _engine)) = (command(), on_a_file());
    bench.bench_function("stowfast now as a process, on a file", |b| {
        b.iter(|| {
            let mut now = Command::new(&command);
            let said =
                now.arg("--db").arg(folder.path().join("trip.db")).arg("now").output().unwrap();
            assert!(said.status.success() && !said.stdout.is_empty());
        });
    });
}

criterion_group!(benches, engine, export, rules, start);
criterion_main!(benches);
