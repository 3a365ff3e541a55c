//! Every invented vehicle, at every built-in place, on its way to every target.
//!
//! One golden file for each vehicle and target: `UPDATE_GOLDEN=1 cargo test --test places` writes
//! them anew. Places from where the way is the same stand together.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test fails loudly")]

use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::thread;

use stowfast_core::clock::Stamp;
use stowfast_core::engine::{Engine, OrderProof, RoutinePage, StepKind};

fn morning() -> Stamp {
    Stamp::utc(1_784_016_000_000)
}

/// How a page begins to say that the planner gave up.
const NOT_FOUND: &str = "No way was found";

/// Left out, by vehicle, target and place (`*`: any), while a plan takes seconds.
const SLOW: [[&str; 3]; 0] = [];

fn is_slow(vehicle: &str, target: &str, place: &str) -> bool {
    SLOW.contains(&[vehicle, target, place]) || SLOW.contains(&[vehicle, target, "*"])
}

fn below(folder: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(folder)
}

fn demo(id: &str) -> Engine {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo(id, &morning()).unwrap();
    engine
}

/// The vehicle of which nothing has been said yet.
fn unknown(id: &str) -> Engine {
    let pack = std::fs::read_to_string(below("../demo-data").join(id).join("pack.toml")).unwrap();
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_pack(&pack, id, &morning()).unwrap();
    engine
}

/// A way on a few lines: verdict, time and proof, then each step in its order.
fn way(page: &RoutinePage) -> String {
    let proof = match page.proof {
        OrderProof::Exact => "exact".to_owned(),
        OrderProof::Gap { gap_s } => format!("gap {gap_s} s"),
        OrderProof::None => "no order".to_owned(),
    };
    let mut text = format!("{:?}: {}\n", page.verdict, page.headline);
    _ = writeln!(text, "{} s, {} s of it walking; {proof}", page.elapsed_s, page.walk_s);
    for line in &page.warnings {
        _ = writeln!(text, "! {line}");
    }
    for line in &page.impossible {
        _ = writeln!(text, "no way: {line}");
    }
    let mut zone = "";
    for step in &page.steps {
        let heading = if step.zone_id == zone { "" } else { &step.zone_id };
        zone = &step.zone_id;
        let walked = if step.walk_s > 0 { format!("+{}", step.walk_s) } else { String::new() };
        _ = write!(text, "  {heading:<9}{walked:>4} {:>4} {}", step.hands_on_s, step.id);
        match step.kind {
            StepKind::Look => _ = write!(text, " -> {}", step.wanted),
            StepKind::Wait => _ = write!(text, " {} s", step.wait_s),
            StepKind::Move => {}
        }
        if step.irreversible {
            text.push_str(", cannot be taken back");
        }
        text.push('\n');
    }
    text
}

/// The ways of one vehicle to one target.
fn ways(vehicle: &str, target: &str) -> String {
    let mut found: Vec<(Vec<String>, String)> = Vec::new();
    let planned = |name: &str, engine: &Engine| {
        let page = engine.preview(target, &morning()).unwrap();
        let not_found = page.impossible.iter().any(|line| line.starts_with(NOT_FOUND));
        assert!(!not_found, "{vehicle}, {target}, {name}");
        page
    };
    let mut add = |name: String, engine: &Engine| {
        let way = way(&planned(&name, engine));
        match found.iter_mut().find(|(_, known)| *known == way) {
            Some((names, _)) => names.push(name),
            None => found.push((vec![name], way)),
        }
    };
    let places = demo(vehicle).places().unwrap().into_iter();
    for place in places.filter(|place| !is_slow(vehicle, target, &place.id)) {
        let mut engine = demo(vehicle);
        engine.arrive_at(&place.id, &morning()).unwrap();
        add(place.id, &engine);
    }
    let nothing_known = "nothing known";
    if target == "ready_to_drive" {
        add(nothing_known.to_owned(), &unknown(vehicle));
    } else {
        planned(nothing_known, &unknown(vehicle));
    }
    let sections = found.iter().map(|(names, way)| format!("== {}\n{way}", names.join(", ")));
    sections.collect::<Vec<_>>().join("\n")
}

fn check(vehicle: &str, target: &str) -> Result<(), String> {
    let found = ways(vehicle, target);
    let path = below("tests/golden").join(vehicle).join(format!("{target}.txt"));
    if std::env::var_os("UPDATE_GOLDEN").is_some() {
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(&path, &found).unwrap();
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_default();
    if kept == found { Ok(()) } else { Err(format!("{vehicle}/{target}.txt; found:\n{found}")) }
}

#[test]
fn the_ways_of_every_vehicle_from_every_place() {
    let mut wanted = BTreeSet::new();
    for vehicle in Engine::in_memory("en").unwrap().demos().unwrap() {
        let targets = demo(&vehicle.id).targets().unwrap().into_iter();
        wanted.extend(targets.map(|target| (vehicle.id.clone(), target.id)));
    }
    wanted.retain(|(vehicle, target)| !is_slow(vehicle, target, "*"));
    let differ: Vec<String> = thread::scope(|scope| {
        let check = |one: &(String, String)| check(&one.0, &one.1).err();
        let mut under_way = Vec::new();
        for one in wanted.clone() {
            under_way.push(scope.spawn(move || check(&one)));
        }
        under_way.into_iter().filter_map(|one| one.join().unwrap()).collect()
    });
    assert!(differ.is_empty(), "differ: {}", differ.join("\n"));
    for (vehicle, _) in &wanted {
        for kept in std::fs::read_dir(below("tests/golden").join(vehicle)).unwrap() {
            let path = kept.unwrap().path();
            let target = path.file_stem().unwrap().to_str().unwrap().to_owned();
            assert!(wanted.contains(&(vehicle.clone(), target)), "{} is of no use", path.display());
        }
    }
}
