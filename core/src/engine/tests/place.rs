//! Vehicles and places that are built in.

use super::{at, tell};
use crate::engine::{Engine, VerdictKind};

fn demo(id: &str) -> Engine {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo(id, &at(0)).unwrap();
    engine
}

fn steps(engine: &Engine, target: &str, minute: i64) -> Vec<String> {
    let page = engine.preview(target, &at(minute)).unwrap();
    assert_eq!(page.impossible, Vec::<String>::new());
    page.steps.into_iter().map(|step| step.id).collect()
}

#[test]
fn a_heater_long_off_is_only_looked_at_before_refuelling() {
    let mut engine = demo("b");
    tell(&mut engine, &[("heater.heat", "off")], &at(0));
    assert_eq!(steps(&engine, "ready_to_refuel", 60), ["heater.heat.look"]);
    let wait = "heater.heat.after_run_min.wait";
    assert_eq!(steps(&engine, "ready_to_refuel", 1), ["heater.heat.look", wait]);
}

#[test]
fn arriving_is_one_entry_and_taken_back_as_one() {
    let mut engine = demo("a");
    let stowed = [("lead.post_end", "out"), ("lead.vehicle_end", "out"), ("lead.coil", "stowed")];
    tell(&mut engine, &stowed, &at(5));
    engine.drive_off(&at(10)).unwrap();
    let before = engine.things(&at(20)).unwrap();
    let changes = engine.arrive_at("pitch_6a", &at(20)).unwrap();
    assert_eq!(changes.entries.len(), 1);
    assert_eq!(engine.moving().unwrap(), None);
    let hook_up = engine.preview("pitched_hookup", &at(20)).unwrap();
    assert_ne!(hook_up.verdict, VerdictKind::Clear);
    assert!(hook_up.steps.iter().any(|step| step.id == "lead.plug_in"), "{:?}", hook_up.steps);
    engine.unmark(changes.entries[0], &at(20)).unwrap();
    assert_eq!(engine.things(&at(20)).unwrap(), before);
}

#[test]
fn at_a_place_without_mains_there_is_no_hooking_up() {
    let mut engine = demo("a");
    engine.drive_off(&at(10)).unwrap();
    engine.arrive_at("parking", &at(20)).unwrap();
    let page = engine.preview("pitched_hookup", &at(20)).unwrap();
    assert!(page.steps.is_empty() && page.impossible[0].contains("live post"), "{page:?}");
}

/// With two tanks, the one is emptied through its own hose; the other stays stowed.
#[test]
fn each_waste_tank_asks_for_its_own_hose() {
    let engine = demo("c");
    let against = |step| engine.refusals(step, &at(0)).unwrap().join(" ");
    assert!(against("waste.open_drain").contains("galley waste hose"));
    assert!(!against("waste.open_drain").contains("washroom waste hose"));
    assert!(against("waste_bath.open_drain").contains("washroom waste hose"));
}
