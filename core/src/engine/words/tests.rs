//! Tests of what an owner reads, on a real engine with the demo vehicle.

use std::collections::BTreeSet;

use super::{once, together};
use crate::clock::Stamp;
use crate::engine::{Engine, ItemRow};
use crate::units::Units;

fn at(minutes: i64) -> Stamp {
    Stamp::utc(1_800_000_000_000 + minutes * 60_000)
}

/// The demo vehicle after a night on hook-up, with leaving under way.
fn leaving() -> Engine {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo("a", &at(0)).unwrap();
    engine.open_run("ready_to_drive", &at(0)).unwrap();
    engine
}

fn row(engine: &Engine, title: &str) -> ItemRow {
    let items = engine.now_page(&at(1)).unwrap().items;
    let titles: Vec<_> = items.iter().map(|item| item.title.clone()).collect();
    let found = items.into_iter().find(|item| item.title.contains(title));
    found.unwrap_or_else(|| panic!("{titles:?}"))
}

#[track_caller]
fn said_once(lines: &[String]) {
    let all: BTreeSet<_> = lines.iter().collect();
    assert!(!lines.is_empty());
    assert_eq!(all.len(), lines.len(), "{lines:#?}");
}

#[test]
fn a_line_and_a_sentence_are_said_once() {
    let own = |lines: &[&str]| lines.iter().map(|line| (*line).to_owned()).collect::<Vec<_>>();
    assert_eq!(once(own(&["a", "b", "", "a"])), own(&["a", "b"]));
    let cautions = own(&["Stop. Look.", "Stop. Keep away: it is hot."]);
    assert_eq!(together(cautions).as_deref(), Some("Stop. Look. Keep away: it is hot."));
    assert_eq!(together(own(&[])), None);
}

#[test]
fn a_live_connector_says_what_to_leave_alone_and_the_one_way_out() {
    let mut engine = leaving();
    let changes = engine.tick("lead.disconnect_vehicle", &at(1)).unwrap();
    assert!(changes.warnings[0].starts_with("Do not touch the connector."), "{changes:?}");
    let page = engine.routine(&at(1)).unwrap().unwrap();
    assert!(page.warnings[0].contains("dry-footed"), "{:?}", page.warnings);
    let row = row(&engine, "open to rain and fingers");
    assert_eq!(row.wanted, "plug of the mains lead: out of the post", "never the connector in");
    assert_eq!(row.zone_title, "Supply post");
    assert!(row.caution.unwrap().starts_with("Do not touch the connector."));
    engine.tick("lead.unplug", &at(2)).unwrap();
    let page = engine.routine(&at(2)).unwrap().unwrap();
    assert_eq!(page.warnings, Vec::<String>::new(), "out of danger");
}

#[test]
fn a_rule_of_several_things_is_said_as_the_rule_with_one_way_out() {
    let mut engine = leaving();
    engine.report("fresh.level", "empty", &at(1)).unwrap();
    let dry = row(&engine, "runs dry");
    assert_eq!(dry.wanted, "water pump: off");
    assert_eq!(dry.zone_title, "Lounge and panel");
    engine.cannot("pump.switch_off", "switch broken", &at(1)).unwrap();
    let stuck = row(&engine, "runs dry");
    assert_eq!(stuck.wanted, "fresh tank: full", "what is stuck is no way out");
    engine.close_run(&at(1)).unwrap();
    let pitched = engine.preview("pitched_hookup", &at(1)).unwrap();
    assert!(!pitched.impossible.concat().contains("water pump: on or"), "{:?}", pitched.impossible);
}

#[test]
fn nothing_is_said_twice_where_everything_is_wrong() {
    let mut engine = leaving();
    said_once(&engine.refusals("engine.drive_off", &at(1)).unwrap());
    let changes = engine.tick("engine.drive_off", &at(1)).unwrap();
    said_once(&changes.warnings);
    let step_out = changes.warnings.iter().filter(|line| line.contains("hits kerbs"));
    assert_eq!(step_out.count(), 1, "broken, and so not early as well: {changes:#?}");
    for target in ["ready_to_drive", "pitched_offgrid"] {
        let page = engine.preview(target, &at(1)).unwrap();
        assert_eq!(page.warnings.len(), 1);
        let sentences: Vec<_> = page.warnings[0].split(". ").map(str::to_owned).collect();
        said_once(&sentences);
        page.steps.iter().for_each(|step| said_once(&step.why));
    }
}

#[test]
fn the_end_does_not_repeat_its_title() {
    let mut engine = leaving();
    while let Some(step) = engine.routine(&at(1)).unwrap().unwrap().steps.first() {
        engine.tick(&step.id, &at(1)).unwrap();
    }
    let page = engine.routine(&at(1)).unwrap().unwrap();
    assert!(page.finished && !page.headline.contains(&page.run.target_title), "{}", page.headline);
}

#[test]
fn a_line_of_the_log_says_once_how_it_is_known() {
    let log = leaving().log(20).unwrap();
    let told: Vec<_> = log.iter().filter(|line| line.text.starts_with("Said: ")).collect();
    assert!(told.iter().any(|line| line.text.contains(" · ")));
    assert!(told.iter().all(|line| line.text.matches("Said").count() == 1), "{told:?}");
}

/// The answer names the state that is wanted, and the question does not.
#[test]
fn a_look_asks_and_its_answer_names_the_state() {
    let page = leaving().routine(&at(1)).unwrap().unwrap();
    let step = |id: &str| page.steps.iter().find(|step| step.id == id).unwrap();
    let roof = step("roof_lounge.leaf.look");
    assert_eq!(roof.text, "Look up at the roof light over the lounge");
    assert_eq!(roof.wanted, "Roof light over the lounge: shut and locked");
    let valve = step("gas_right.valve.look");
    assert!(valve.cautions[0].contains("do not turn it"), "{:?}", valve.cautions);
    assert_eq!(valve.wanted, "Valve of the right gas cylinder: shut");
}

#[test]
fn a_time_names_only_what_it_has() {
    let catalogue = crate::catalogue::Catalogue::built_in().unwrap();
    let engine = leaving();
    let vehicle = &engine.loaded().unwrap().vehicle;
    let words = super::Words { vehicle, text: &catalogue.texts["en"], units: Units::Metric };
    let minutes = [0, 14, 120, 150];
    let said = minutes.map(|minutes| words.time(minutes * 60_000));
    assert_eq!(said, ["less than a minute", "14 min", "2 h", "2 h 30 min"]);
}

/// A pack value stands in the words, and that it is a default where the pack did not give it.
#[test]
fn a_pack_value_is_said_and_whether_it_is_a_default() {
    let said = |values: &str| {
        let pack =
            include_str!("../../../../demo-data/a/pack.toml").replace("a coach-built", "one");
        let pack =
            pack.replace("values = { gas_delay_min = 20, dc_w = 4, dc_heat_w = 135 }", values);
        let mut engine = Engine::in_memory("en").unwrap();
        engine.add_pack(&pack, "made up", &at(0)).unwrap();
        let loaded = engine.loaded().unwrap();
        let words = loaded.words("en").unwrap();
        let (_, action) = loaded.vehicle.action("fridge.set_off").unwrap();
        words.cautions(action).join(" ")
    };
    let given = said("values = { stays_cold_h = 7 }");
    assert!(given.ends_with("it stays cold for about 7 hours."), "{given}");
    let default = said("values = {}");
    assert!(default.ends_with("about 4 hours. Usual value: check your manual."), "{default}");
}
