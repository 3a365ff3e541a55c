//! What time and temperature may have changed, as the pages say it.

use super::{PACK, at, carry_out, demo, tell};
use crate::catalogue::{Catalogue, Kind};
use crate::engine::{Engine, StepKind};
use crate::pack;
use crate::vehicle::Vehicle;

const H: i64 = 60;

fn thing(engine: &Engine, variable: &str, minute: i64) -> (Vec<String>, String) {
    let rows = engine.things(&at(minute)).unwrap();
    let row = rows.into_iter().find(|row| row.variable == variable).unwrap();
    (row.believed, row.age_text.unwrap_or_default())
}

/// What is asked before driving, by what it is about.
fn asked(engine: &Engine, minute: i64) -> Vec<String> {
    let page = engine.now_page(&at(minute)).unwrap();
    page.items.into_iter().map(|item| item.variable).collect()
}

#[test]
fn a_tank_in_use_may_have_filled_up_and_a_look_ends_it() {
    let mut engine = demo();
    engine.report("waste.level", "empty", &at(0)).unwrap();
    assert_eq!(thing(&engine, "waste.level", 2 * H - 1).0, ["empty"]);
    assert_eq!(thing(&engine, "waste.level", 2 * H).0, ["empty", "part"]);
    let (believed, said) = thing(&engine, "waste.level", 25 * H);
    assert_eq!(believed, ["empty", "part", "full"]);
    assert_eq!(said, "25 h ago; since then it may have filled up");
    engine.look("waste.level.look", "part", &at(25 * H)).unwrap();
    let (believed, said) = thing(&engine, "waste.level", 25 * H + 1);
    assert_eq!((believed, said), (vec!["part".to_owned()], "1 min ago".to_owned()));
}

/// With the pump off nobody uses water; what settled before it was switched off stays.
#[test]
fn without_the_pump_no_tank_fills_and_what_settled_before_stays() {
    let mut engine = demo();
    tell(&mut engine, &[("pump.power", "off"), ("waste.level", "empty")], &at(0));
    assert_eq!(thing(&engine, "waste.level", 48 * H).0, ["empty"]);
    tell(&mut engine, &[("pump.power", "on"), ("waste.level", "empty")], &at(48 * H));
    engine.report("pump.power", "off", &at(51 * H)).unwrap();
    assert_eq!(thing(&engine, "waste.level", 99 * H).0, ["empty", "part"]);
}

/// Two hours of use fill it a little: from when the pump is on, not from when the tank was seen.
#[test]
fn a_settling_counts_from_when_all_it_hangs_on_holds() {
    let mut engine = demo();
    tell(&mut engine, &[("pump.power", "off"), ("waste.level", "empty")], &at(0));
    engine.report("pump.power", "on", &at(48 * H)).unwrap();
    assert_eq!(thing(&engine, "waste.level", 50 * H - 1).0, ["empty"]);
    assert_eq!(thing(&engine, "waste.level", 50 * H).0, ["empty", "part"]);
}

/// Off for the night it does not begin anew: the hours of use count together, until it is seen again.
#[test]
fn what_is_interrupted_counts_in_sum_until_it_is_said_anew() {
    let mut engine = demo();
    tell(&mut engine, &[("pump.power", "on"), ("waste.level", "empty")], &at(0));
    engine.report("pump.power", "off", &at(H)).unwrap();
    engine.report("pump.power", "on", &at(10 * H)).unwrap();
    engine.report("pump.power", "on", &at(10 * H + 30)).unwrap();
    assert_eq!(thing(&engine, "waste.level", 11 * H - 1).0, ["empty"]);
    assert_eq!(thing(&engine, "waste.level", 11 * H).0, ["empty", "part"]);
    engine.look("waste.level.look", "empty", &at(11 * H)).unwrap();
    assert_eq!(thing(&engine, "waste.level", 13 * H - 1).0, ["empty"]);
    assert_eq!(thing(&engine, "waste.level", 13 * H).0, ["empty", "part"]);
}

/// Nobody cooked: with everything off and looked at in the evening, the morning asks for what a
/// departure always asks to see, and for nothing else.
#[test]
fn the_morning_asks_for_nothing_that_nobody_touched() {
    let mut engine = demo();
    engine.open_run("ready_to_drive", &at(0)).unwrap();
    carry_out(&mut engine, &at(1));
    engine.close_run(&at(2)).unwrap();
    let morning = asked(&engine, 14 * H);
    let loaded = engine.at(&at(14 * H)).unwrap();
    let target = loaded.catalogue.target("ready_to_drive").unwrap();
    let fresh: Vec<_> = loaded.goals(target).unwrap().into_iter().filter(|it| it.fresh).collect();
    for variable in &morning {
        let number = loaded.vehicle.variable(variable).unwrap();
        let must_be_seen =
            fresh.iter().any(|goal| goal.any_of.iter().any(|one| one.variable == number));
        assert!(must_be_seen, "{variable} is asked for though nobody touched it");
    }
    assert!(!morning.is_empty());
    let page = engine.preview("ready_to_drive", &at(14 * H)).unwrap();
    let moves: Vec<_> =
        page.steps.iter().filter(|step| step.kind == StepKind::Move).map(|it| &it.id).collect();
    assert_eq!(moves, ["walk_round.walk"], "nothing is done again");
}

/// A vehicle with one fitting of a kind, beside those that must be there.
fn with(kind: &str, id: &str) -> Engine {
    let fitting = format!(
        "[[fitting]]\nid = \"{id}\"\nkind = \"{kind}\"\ntitle = \"the {id}\"\nzone = \"door\"\n\n"
    );
    super::changed(
        "[[fitting]]\nid = \"handbrake\"",
        &format!("{fitting}[[fitting]]\nid = \"handbrake\""),
    )
}

#[test]
fn in_frost_a_frost_valve_may_have_let_the_boiler_run_out() {
    let mut engine = with("frost_valve", "frost");
    let known = [("frost.valve", "shut"), ("boiler.water", "full"), ("boiler.heat", "off")];
    tell(&mut engine, &known, &at(0));
    assert_eq!(thing(&engine, "boiler.water", 48 * H).0, ["full"], "a mild night");
    engine.report("pitch.tonight", "frost", &at(0)).unwrap();
    assert_eq!(thing(&engine, "frost.valve", H - 1).0, ["shut"]);
    let (believed, said) = thing(&engine, "boiler.water", H);
    assert_eq!(believed, ["empty", "full"]);
    assert_eq!(said, "60 min ago; since then it may have run out through the frost valve");
    assert!(!engine.refusals("boiler.heat_electric", &at(H)).unwrap().is_empty(), "look first");
    engine.report("boiler.heat", "gas", &at(0)).unwrap();
    assert_eq!(thing(&engine, "boiler.water", H).0, ["full"], "heated");
}

#[test]
fn a_boiler_without_a_frost_valve_keeps_its_water() {
    let mut engine = demo();
    tell(&mut engine, &[("boiler.heat", "off"), ("pitch.tonight", "frost")], &at(0));
    assert_eq!(thing(&engine, "boiler.water", 12 * H).0, ["full"]);
}

/// Nobody has said anything of the roof: it counts as clear until a frosty night is told.
#[test]
fn after_a_frosty_night_snow_may_lie_until_somebody_looks() {
    let mut engine = with("roof", "top");
    assert!(!asked(&engine, 12 * H).contains(&"top.snow".to_owned()));
    engine.report("pitch.tonight", "frost", &at(12 * H)).unwrap();
    assert!(!asked(&engine, 14 * H).contains(&"top.snow".to_owned()));
    assert!(asked(&engine, 20 * H).contains(&"top.snow".to_owned()));
    let (_, said) = thing(&engine, "top.snow", 20 * H);
    assert_eq!(said, "8 h ago; since then it may have snowed or iced over in the frost");
    engine.look("top.snow.look", "clear", &at(20 * H)).unwrap();
    assert!(!asked(&engine, 21 * H).contains(&"top.snow".to_owned()));
}

/// Pressures grow old first perhaps, then for certain: no danger hangs on them.
#[test]
fn recorded_pressures_grow_old_first_perhaps_and_then_for_certain() {
    let mut engine = demo();
    engine.tick("tyres.record", &at(0)).unwrap();
    let day = |n: i64| n * 24 * H;
    assert_eq!(thing(&engine, "tyres.pressures", day(29)).0, ["recorded"]);
    assert_eq!(thing(&engine, "tyres.pressures", day(30)).0, ["due", "recorded"]);
    assert_eq!(thing(&engine, "tyres.pressures", day(90)).0, ["due"]);
    let seen = engine.now_page(&at(day(30))).unwrap().items.into_iter();
    let seen: Vec<_> = seen.filter(|it| it.variable == "tyres.pressures").collect();
    assert!(seen[0].seen.contains("may be out of date"), "{:?}", seen[0]);
}

/// Each time is a pack value: changed in the pack, it changes what settles.
#[test]
fn every_time_of_settling_follows_the_pack() {
    let catalogue = Catalogue::built_in().unwrap();
    let times = |kind: &Kind, values: &str| {
        let only = |lines: &&str| {
            let tank = ["fresh_tank", "waste_tank"].contains(&kind.id.as_str());
            let apart = kind.at_most.is_none() && !tank;
            apart || !lines.contains(&format!("kind = \"{}\"\n", kind.id))
        };
        let fitting = |id: &str, kind: &str, values: &str| {
            format!(
                "\nid = \"{id}\"\nkind = \"{kind}\"\ntitle = \"{id}\"\nzone = \"door\"\n{values}\n"
            )
        };
        // Which of two it belongs to must be said.
        let link = match kind.id.as_str() {
            "gas_hose" => "links = { cylinder = \"gas_left\" }\n",
            "frost_valve" => "links = { boiler = \"boiler\" }\n",
            _ => "",
        };
        let valve = fitting("valve", "frost_valve", "links = { boiler = \"boiler\" }\n");
        let own = [fitting("it", &kind.id, &format!("{link}{values}")), valve];
        let lines = PACK.split("[[fitting]]").filter(only).chain(own.iter().map(String::as_str));
        let text = lines.collect::<Vec<_>>().join("[[fitting]]");
        let pack = pack::read("it", text.as_bytes(), catalogue).unwrap();
        let vehicle = Vehicle::new(&pack, catalogue).unwrap();
        let own = vehicle.fittings.iter().position(|one| one.id == "it");
        let settlings = vehicle.settlings.into_iter().filter(|one| Some(one.fitting) == own);
        settlings.map(|one| (one.after_ms, one.latest_ms)).collect::<Vec<_>>()
    };
    let mut tried = 0;
    for kind in catalogue.kinds.values() {
        let named = kind.settlings.iter().flat_map(|it| [Some(&it.after), it.latest.as_ref()]);
        for value in named.flatten() {
            let given = format!("values = {{ {value} = 7 }}\n");
            assert_ne!(times(kind, ""), times(kind, &given), "{}.{value}", kind.id);
            tried += 1;
        }
    }
    assert!(tried > 20, "{tried}");
}
