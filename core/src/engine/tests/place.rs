//! Vehicles and places that are built in.

use super::{at, tell};
use crate::engine::{Engine, VerdictKind};
use crate::state::{Act, Fact, How, NewEntry};

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
fn a_rule_of_a_carrier_names_the_sort_that_can_be_told() {
    let mut engine = demo("a");
    let rules = engine.rules(&at(1)).unwrap();
    let (carriers, countries): (Vec<_>, Vec<_>) =
        rules.into_iter().partition(|row| row.carrier.is_some());
    assert!(!carriers.is_empty() && countries.iter().all(|row| row.place.len() == 2));
    for row in carriers {
        engine.tell_carrier(row.carrier.as_deref().unwrap(), &at(2)).unwrap();
        let told = engine.rules(&at(2)).unwrap().into_iter().filter(|row| row.told);
        assert!(told.map(|row| row.place).all(|place| place == row.place));
    }
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
    assert!(!engine.now_page(&at(20)).unwrap().moving);
    let hook_up = engine.preview("pitched_hookup", &at(20)).unwrap();
    assert_ne!(hook_up.verdict, VerdictKind::Clear);
    assert!(hook_up.steps.iter().any(|step| step.id == "lead.plug_in"), "{:?}", hook_up.steps);
    engine.unmark(changes.entries[0], &at(20)).unwrap();
    assert_eq!(engine.things(&at(20)).unwrap(), before);
}

/// Where there is no post, the plug is in none: no look at it, and no walk there.
#[test]
fn nobody_looks_at_a_plug_where_there_is_no_post() {
    let at_the_post = |supply: &str| {
        let mut engine = Engine::in_memory("en").unwrap();
        engine.add_pack(super::PACK, "a", &at(0)).unwrap();
        let stands = [("engine.wheels", "still"), ("handbrake.lever", "on")];
        tell(&mut engine, &stands, &at(0));
        tell(&mut engine, &[("post.supply", supply)], &at(1));
        engine.open_run("ready_to_drive", &at(2)).unwrap();
        // Nor once the departure has lapsed.
        [2, 200].map(|minute| {
            let steps = engine.routine(&at(minute)).unwrap().unwrap().steps;
            steps.iter().any(|step| step.zone_id == "post")
        })
    };
    assert_eq!(at_the_post("live"), [true; 2]);
    assert_eq!(at_the_post("none"), [false; 2]);
}

/// What is known to be otherwise is not made so by a word about the place; a later word stands.
#[test]
fn a_plug_that_is_known_to_be_in_stays_in() {
    let mut engine = demo("a");
    tell(&mut engine, &[("post.supply", "none")], &at(1));
    assert!(steps(&engine, "pitched_offgrid", 1).contains(&"lead.unplug".to_owned()));
    tell(&mut engine, &[("lead.post_end", "out"), ("lead.post_end", "in")], &at(2));
    assert!(steps(&engine, "pitched_offgrid", 2).contains(&"lead.unplug".to_owned()));
}

/// The point for emptying a cassette was once told of the toilet.
#[test]
fn an_old_log_that_speaks_of_what_is_gone_still_loads() {
    let mut engine = demo("b");
    let before = engine.things(&at(1)).unwrap();
    let settings = vec!["here".to_owned()];
    let fact = Fact { variable: "toilet.point".to_owned(), settings, how: How::Told };
    let old = NewEntry {
        at: at(1),
        run: None,
        act: Act::Report,
        facts: vec![fact],
        reading: None,
        finding: None,
        figure: None,
        note: String::new(),
    };
    engine.write(&[old]).unwrap();
    engine.load().unwrap();
    assert_eq!(engine.things(&at(1)).unwrap(), before, "passed over");
    let said = engine.log(1).unwrap().remove(0).text;
    assert_eq!(said, "Said: toilet.point: here, which is no longer fitted");
}

/// On the road only what is known to be wrong is in the way, for every client alike.
#[test]
fn on_the_road_the_first_page_says_so() {
    let mut engine = demo("a");
    assert!(!engine.now_page(&at(1)).unwrap().moving);
    engine.drive_off(&at(1)).unwrap();
    let page = engine.now_page(&at(1)).unwrap();
    assert!(page.moving && page.headline.contains("things are wrong") && page.detail.is_empty());
    assert!(page.items.iter().any(|item| item.variable == "step.step"));
    assert!(page.items.iter().all(|item| item.known_bad && item.variable != "engine.wheels"));
}

#[test]
fn what_draws_more_than_the_post_gives_is_said() {
    let mind = |place: &str, values: &str| {
        let heater = "\n[[fitting]]\nid = \"fan\"\nkind = \"heater_electric\"\n";
        let rest = format!("title = \"fan heater\"\nzone = \"lounge\"\n{values}\n");
        let mut engine = Engine::in_memory("en").unwrap();
        engine.add_pack(&format!("{}{heater}{rest}", super::PACK), "a", &at(0)).unwrap();
        engine.arrive_at(place, &at(0)).unwrap();
        tell(&mut engine, &[("boiler.heat", "electric")], &at(1));
        let said = engine.report("fan.heat", "on", &at(1)).unwrap().warnings;
        said.iter().filter(|one| one.starts_with("Mind: ") && one.contains(" post ")).count()
    };
    assert_eq!(mind("pitch_6a", ""), 2, "by itself, and with the boiler");
    assert_eq!(mind("pitch_10a", ""), 1);
    assert_eq!(mind("pitch_10a", "values = { mains_w = 900 }"), 0, "the pack says how much");
    assert_eq!(mind("pitch_16a", ""), 0);
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
