//! What an owner reads on the way to a stop, a lay-up and back, on the invented vehicle.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test fails loudly")]

mod call;

use std::path::Path;

use call::stowfast;

const MORNING: &str = "2026-10-14T08:00:00Z";

/// What the command prints when it succeeds.
fn says(folder: &Path, args: &[&str]) -> String {
    let mut command = stowfast(folder);
    command.args(["--now", MORNING]).args(args);
    let output = command.output().unwrap();
    let said = String::from_utf8(output.stdout).unwrap();
    assert_eq!(output.status.code(), Some(0), "{args:?}: {said}");
    said
}

fn plan(facts: &[(&str, &str)], asked: &[&str]) -> String {
    plan_of("a", facts, asked)
}

fn plan_of(vehicle: &str, facts: &[(&str, &str)], asked: &[&str]) -> String {
    let folder = tempfile::tempdir().unwrap();
    says(folder.path(), &["demo", vehicle]);
    for (thing, setting) in facts {
        says(folder.path(), &["report", thing, setting]);
    }
    says(folder.path(), &[&["plan"], asked].concat())
}

/// Whether some words come in this order.
fn in_order(said: &str, words: &[&str]) -> bool {
    let mut rest = Some(said);
    words.iter().all(|word| {
        rest = rest.and_then(|rest| rest.split_once(word)).map(|(_, after)| after);
        rest.is_some()
    })
}

const AT_HOME: [(&str, &str); 2] = [("pitch.waste_point", "here"), ("boiler.heat", "gas")];

#[test]
fn hot_water_cools_before_it_is_let_out_for_the_winter() {
    let said = plan(&AT_HOME, &["laid_up_winter"]);
    let order = ["Switch the boiler off", "has cooled", "Open the drain of the boiler"];
    assert!(in_order(&said, &order), "{said}");
    assert!(said.contains("Open the drain of the fresh tank"), "{said}");
}

#[test]
fn the_waste_hose_comes_off_the_open_drain_only_once_the_tank_is_empty() {
    let said = plan(&AT_HOME, &["laid_up_winter"]);
    let order = ["Open the drain of the waste tank", "Take the waste hose off"];
    assert!(in_order(&said, &order), "{said}");
    // What is shut while the boiler cools, so that the hose can be put away, ends open all the same.
    let again =
        ["Shut the drain of the waste tank", "Leave the drain of the empty waste tank open"];
    assert!(!said.contains(again[0]) || in_order(&said, &again), "{said}");
}

#[test]
fn water_is_let_out_for_a_short_while_only_before_a_frost() {
    let drained = |tonight| {
        let facts = [AT_HOME.as_slice(), &[("pitch.tonight", tonight)]].concat();
        plan(&facts, &["laid_up_short"]).contains("Open the drain of the fresh tank")
    };
    assert_eq!([drained("mild"), drained("frost")], [false, true]);
}

#[test]
fn nothing_is_gas_lit_nor_open_where_one_boards() {
    let facts = [("gas_left.valve", "open"), ("fridge.selector", "gas"), ("boiler.heat", "gas")];
    let said = plan(&facts, &["ready_to_board"]);
    for step in ["Switch the fridge off", "Switch the boiler off", "the left gas cylinder"] {
        assert!(said.contains(step), "{step}: {said}");
    }
}

#[test]
fn only_the_parts_asked_for_are_serviced_and_the_run_keeps_them() {
    let place = [("pitch.waste_point", "here"), ("pitch.water", "tap"), ("fresh.level", "low")];
    let said = plan(&place, &["serviced"]);
    assert!(
        said.contains("water run into the fresh tank") && said.contains("drain of the waste"),
        "{said}"
    );
    let folder = tempfile::tempdir().unwrap();
    says(folder.path(), &["demo", "a"]);
    for (thing, setting) in place {
        says(folder.path(), &["report", thing, setting]);
    }
    says(folder.path(), &["open", "serviced", "--only", "waste"]);
    let left = says(folder.path(), &["routine"]);
    assert!(left.contains("drain of the waste") && !left.contains("into the fresh"), "{left}");
}

#[test]
fn drains_are_shut_and_the_tank_filled_before_the_pump_runs_again() {
    let facts = [
        ("pitch.water", "tap"),
        ("fresh.drain", "open"),
        ("fresh.level", "empty"),
        ("boiler.drain", "open"),
        ("boiler.water", "empty"),
        ("boiler.heat", "off"),
        ("pump.power", "off"),
    ];
    let said = plan(&facts, &["back_in_service"]);
    let fresh = [
        "Shut the drain of the fresh tank",
        "water run into the fresh tank",
        "Switch the water pump on",
    ];
    assert!(in_order(&said, &fresh), "{said}");
    assert!(in_order(&said, &["Shut the drain of the boiler", "Fill the boiler"]), "{said}");
}

/// Nothing was said of the place: then nothing is called done, and the page says what to tell it.
#[test]
fn serviced_asks_what_the_place_has_and_names_its_parts() {
    let folder = tempfile::tempdir().unwrap();
    let steps = ["handbrake.pull", "engine.switch_off", "boiler.switch_off"];
    for args in [["demo", "a"].as_slice(), &["drive"], &["arrive"]] {
        says(folder.path(), args);
    }
    for step in steps {
        says(folder.path(), &["tick", step]);
    }
    let said = says(folder.path(), &["plan", "serviced"]);
    assert!(said.contains("parts can be asked for alone: waste, water"), "{said}");
    assert!(said.contains("Say what is here: waste point, drinking water"), "{said}");
    assert!(said.contains("Nobody has said yet what this place has"), "{said}");
    let one = says(folder.path(), &["plan", "serviced", "--only", "water"]);
    assert!(one.contains("Empty and fill, water"), "{one}");
    assert!(one.contains("Say what is here: drinking water."), "{one}");
    says(folder.path(), &["arrive", "service_point"]);
    let there = says(folder.path(), &["plan", "serviced"]);
    assert!(!there.contains("Say what is here"), "{there}");
}

/// The vehicle with a hose at each cylinder: all flames out, and nothing lit before the spray.
#[test]
fn an_empty_cylinder_is_changed_from_all_flames_out_to_the_spray() {
    let facts = [("gas_left.level", "empty"), ("fridge.selector", "gas")];
    let said = plan_of("a", &facts, &["cylinder_changed"]);
    let order = [
        "Set the fridge to mains",
        "Shut the valve of the left gas cylinder",
        "Take the left gas hose off",
        "Stand a full cylinder",
        "Look at the seal",
        "Screw the left gas hose on",
        "Open the valve of the left gas cylinder",
        "Spray the joints of the left gas hose",
    ];
    assert!(in_order(&said, &order), "{said}");
}

/// A search in haste may find what is of no use; that is left out before anybody reads it.
#[test]
fn every_step_of_a_lay_up_has_a_reason() {
    let folder = tempfile::tempdir().unwrap();
    says(folder.path(), &["demo", "c"]);
    let said = says(folder.path(), &["plan", "laid_up_winter", "--json"]);
    let page: serde_json::Value = serde_json::from_str(&said).unwrap();
    let steps = page["routine"]["steps"].as_array().unwrap();
    assert!(steps.len() > 40, "{}", steps.len());
    for step in steps.iter().filter(|step| step["kind"] == "look") {
        let why = step["why"].as_array().unwrap();
        assert!(why.len() > 1, "only that nobody has said how it is: {step}");
    }
}
