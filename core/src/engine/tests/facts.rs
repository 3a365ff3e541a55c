//! Facts of the place, the trip and the vehicle: said, taken for granted, or asked for nowhere.

use super::{PACK, at, carry_out, changed, demo, tell};
use crate::engine::{Engine, FridgeSource, GaugeRow, GaugeUnit, VerdictKind};
use crate::error::Error;

/// The demo vehicle without some of its fittings, and nothing said.
fn without(ids: &[&str]) -> Engine {
    let is_left = |lines: &&str| !ids.iter().any(|id| lines.contains(&format!("id = \"{id}\"\n")));
    let fittings: Vec<_> = PACK.split("[[fitting]]").filter(is_left).collect();
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_pack(&fittings.join("[[fitting]]"), "without.toml", &at(0)).unwrap();
    engine
}

/// A cylinder guarded by a crash sensor, and allowed open on the road by the manual.
const GUARD: &str = "road_protection = \"crash_sensor\", open_on_the_road_allowed = true";

/// What somebody who asked was told.
const ALLOWED_HERE: (&str, &str) = ("local_rules.gas_on_road", "allowed");

/// Both cylinders guarded.
pub(super) fn guarded() -> Engine {
    changed("road_protection = \"hose_rupture\"", GUARD)
}

fn steps(engine: &Engine, target: &str, minute: i64) -> Vec<String> {
    let page = engine.preview(target, &at(minute)).unwrap();
    page.steps.into_iter().map(|step| step.id).collect()
}

/// Where the fitted protection and the manual allow it, the owner chooses for each trip; what
/// nobody has chosen is shut, and what was chosen is shown, until the trip is over.
#[test]
fn the_owner_chooses_for_each_trip_whether_a_cylinder_stays_open() {
    let mut engine = guarded();
    let known = [("gas_left.valve", "open"), ("gas_right.valve", "shut"), ALLOWED_HERE];
    tell(&mut engine, &known, &at(0));
    assert!(steps(&engine, "ready_to_drive", 0).contains(&"gas_left.shut".to_owned()));
    engine.report("gas_left.road_choice", "open", &at(1)).unwrap();
    engine.open_run("ready_to_drive", &at(2)).unwrap();
    let early = engine.routine(&at(2)).unwrap().unwrap();
    assert!(early.steps.iter().any(|step| step.id == "gas_left.shut"), "not for this departure");
    engine.report("gas_left.road_choice", "open", &at(3)).unwrap();
    carry_out(&mut engine, &at(4));
    let page = engine.now_page(&at(5)).unwrap();
    assert_eq!(page.verdict, VerdictKind::Clear, "{:?}", page.items);
    let shown = "Left gas cylinder on this trip: open, as the maker's manual allows";
    assert_eq!(page.place_title, format!("{shown} · Driving with gas open here: allowed"));
    assert!(!page.place_title.contains("Right"));
    assert!(engine.log(30).unwrap().iter().any(|row| row.text.contains(shown)), "recorded");

    let moving = engine.report("engine.wheels", "moving", &at(6)).unwrap();
    assert_eq!(moving.warnings, [""; 0], "nothing is broken on the road");
    engine.report("engine.wheels", "still", &at(60)).unwrap();
    assert_eq!(engine.now_page(&at(60)).unwrap().place_title, "");
    assert!(steps(&engine, "ready_to_drive", 60).contains(&"gas_left.shut".to_owned()));
}

/// A move may rest on what was seen long ago, but the owner is told: a plug is pulled while the
/// connector is still in the vehicle, and a night is long enough for somebody to have pulled that.
#[test]
fn a_hazardous_move_says_what_it_rests_on_that_nobody_has_seen_for_long() {
    let said = |engine: &Engine| {
        let page = engine.preview("pitched_offgrid", &at(0)).unwrap();
        let step = page.steps.into_iter().find(|step| step.id == "lead.unplug").unwrap();
        step.cautions.into_iter().filter(|one| one.contains("Look first.")).collect::<Vec<_>>()
    };
    let mut engine = demo();
    let old = "Connector of the mains lead: in the vehicle, last known 15 h ago. Look first.";
    assert_eq!(said(&engine), [old]);
    tell(&mut engine, &[("lead.vehicle_end", "in")], &at(0));
    assert_eq!(said(&engine), [""; 0]);
}

/// The flue cover is such a thing: lit on gas after days, its step asks for a look.
#[test]
fn lit_on_a_cover_that_was_off_days_ago_is_permitted_and_asks_for_a_look() {
    const DAY: i64 = 24 * 60;
    let mut engine = demo();
    let facts = [("boiler.heat", "gas"), ("boiler.cover", "off"), ("gas_left.valve", "open")];
    tell(&mut engine, &facts, &at(0));
    let last = engine.report("boiler.heat", "off", &at(1)).unwrap().entries[0];
    engine.report("boiler.water", "full", &at(3 * DAY)).unwrap();
    assert_eq!(engine.refusals("boiler.heat_gas", &at(3 * DAY)).unwrap(), [""; 0]);
    let page = engine.preview(&format!("back/{last}"), &at(3 * DAY)).unwrap();
    let lit = page.steps.iter().find(|step| step.id == "boiler.heat_gas").unwrap();
    let cover = "Flue cover of the boiler: off the flue, last known 3 days ago. Look first.";
    assert!(lit.cautions.iter().any(|one| one == cover), "{:?}", lit.cautions);
}

/// Whatever is fitted and chosen: where gas open on the road is forbidden it is shut; where nobody
/// has said, or the rows say ask, it is shut too, unless the owner asked and says so.
#[test]
fn gas_stays_open_only_where_it_is_known_to_be_allowed() {
    let shuts = |say: &dyn Fn(&mut Engine)| {
        let mut engine = guarded();
        tell(&mut engine, &[("gas_left.valve", "open"), ("gas_right.valve", "shut")], &at(0));
        engine.open_run("ready_to_drive", &at(1)).unwrap();
        engine.report("gas_left.road_choice", "open", &at(2)).unwrap();
        say(&mut engine);
        let page = engine.routine(&at(3)).unwrap().unwrap();
        page.steps.iter().any(|step| step.id == "gas_left.shut")
    };
    let report = |setting: &'static str| {
        move |engine: &mut Engine| {
            engine.report("local_rules.gas_on_road", setting, &at(3)).unwrap();
        }
    };
    assert!(shuts(&|_| ()), "nobody said");
    assert!(shuts(&report("forbidden")));
    assert!(!shuts(&report("allowed")));
    let country = |engine: &mut Engine| {
        let said = engine.tell_country("DE", &at(3)).unwrap().warnings;
        assert!(said.iter().any(|line| line.contains("ask before you drive")), "{said:?}");
    };
    assert!(shuts(&country), "the rows say ask");
    assert!(!shuts(&|engine| {
        country(engine);
        report("allowed")(engine);
    }));
}

/// Whatever is fitted, a choice that the pack does not allow is none.
#[test]
fn a_cylinder_that_may_not_be_open_on_the_road_offers_no_choice() {
    let refused = demo().report("gas_left.road_choice", "open", &at(1));
    assert!(matches!(refused, Err(Error::InvalidInput { .. })), "{refused:?}");
}

/// A fridge may burn on the road only where the owner has chosen so.
#[test]
fn a_flame_on_the_road_follows_the_choice() {
    let warned = |choice: &str| {
        let mut engine = guarded();
        let facts = [
            ("fridge.selector", "gas"),
            ("gas_left.valve", "open"),
            ("engine.running", "on"),
            ("gas_left.road_choice", choice),
        ];
        tell(&mut engine, &facts, &at(0));
        let page = engine.fridge(&at(1)).unwrap().unwrap();
        page.cautions.iter().any(|line| line.contains("burn while driving"))
    };
    assert!(warned("shut") && !warned("open"));
}

/// Of two cylinders that may be open on the road only the one in use is, unless an automatic
/// changeover is fitted: one rule for the pair.
#[test]
fn two_cylinders_are_open_on_the_road_only_with_a_changeover() {
    for (changeover, shut) in [("", 1), (", automatic_changeover = true", 0)] {
        let guard = format!("{GUARD}{changeover}");
        let mut engine = changed("road_protection = \"hose_rupture\"", &guard);
        tell(&mut engine, &[ALLOWED_HERE], &at(0));
        engine.open_run("ready_to_drive", &at(0)).unwrap();
        for cylinder in ["gas_left", "gas_right"] {
            engine.report(&format!("{cylinder}.valve"), "open", &at(1)).unwrap();
            engine.report(&format!("{cylinder}.road_choice"), "open", &at(1)).unwrap();
        }
        let page = engine.routine(&at(2)).unwrap().unwrap();
        let shutting = ["gas_left.shut", "gas_right.shut"];
        let steps = page.steps.iter().filter(|step| shutting.contains(&step.id.as_str()));
        assert_eq!(steps.count(), shut);
        let items = engine.now_page(&at(2)).unwrap().items;
        let pairs = items.iter().filter(|item| item.reason.contains("only the cylinder in use"));
        assert_eq!(pairs.count(), shut);
    }
}

/// What nobody has said is taken for granted, and said to be.
#[test]
fn flames_count_as_allowed_until_somebody_says_that_they_are_not() {
    let mut engine = guarded();
    let facts = [
        ("fridge.selector", "auto"),
        ("gas_left.valve", "open"),
        ("engine.running", "off"),
        ("lead.post_end", "out"),
    ];
    tell(&mut engine, &facts, &at(0));
    let page = |engine: &Engine| engine.fridge(&at(60)).unwrap().unwrap();
    let granted = "As long as nobody has said that flames are forbidden here.";
    assert_eq!(page(&engine).source, FridgeSource::Gas);
    assert_eq!(page(&engine).why.last().map(String::as_str), Some(granted));
    tell(&mut engine, &[("pitch.flame", "allowed")], &at(30));
    assert!(!page(&engine).why.contains(&granted.to_owned()));
    let said = engine.report("pitch.flame", "forbidden", &at(31)).unwrap().warnings;
    assert!(said.concat().contains("no way to light gas"), "{said:?}");
    let forbidden = page(&engine);
    assert_eq!(forbidden.source, FridgeSource::None);
    assert_eq!(forbidden.by_hand.as_deref(), Some("Switch it off."));
    for step in ["fridge.set_gas", "boiler.heat_gas"] {
        let refused = engine.refusals(step, &at(31)).unwrap().concat();
        assert!(refused.contains("no flame may burn") || refused.contains("No flame"), "{step}");
    }
    tell(&mut engine, &[("engine.wheels", "moving"), ("engine.wheels", "still")], &at(32));
    assert!(!engine.now_page(&at(33)).unwrap().place_title.contains("Flames"), "left behind");
}

/// On mains it makes no difference whether flames are allowed, and nothing is said of them.
#[test]
fn nothing_is_taken_for_granted_that_makes_no_difference() {
    let page = demo().fridge(&at(1)).unwrap().unwrap();
    assert_eq!(page.why, ["Mains reaches the vehicle, and mains comes first."]);
}

/// The row of the fresh tank.
pub(super) fn fresh(rows: Vec<GaugeRow>) -> GaugeRow {
    rows.into_iter().find(|row| row.id == "fresh").unwrap()
}

/// A tank's reading counts with what it takes for granted, and no more once that is said not to be.
#[test]
fn a_reading_says_what_it_takes_for_granted() {
    let mut engine = demo();
    let row = |engine: &Engine| fresh(engine.gauges(&at(1)).unwrap());
    let read = |engine: &mut Engine, lit: f64| {
        engine.enter_reading("fresh", GaugeUnit::Lamps, lit, &at(1)).unwrap().warnings
    };
    let note = row(&engine).note.unwrap();
    assert!(row(&engine).counts && note.contains("has power") && note.contains("level"), "{note}");
    let said = read(&mut engine, 2.0);
    assert_eq!(
        said[1], "A reading counts as far as the vehicle stands level: nobody has said.",
        "a lamp has power"
    );
    assert_eq!(row(&engine).current_text, "At the travel fill or above the travel fill");
    assert!(read(&mut engine, 0.0)[1].contains("has power"), "none may be without");

    tell(&mut engine, &[("pitch.ground", "level"), ("fresh.power", "on")], &at(1));
    assert_eq!((row(&engine).counts, row(&engine).note), (true, None));
    assert_eq!(read(&mut engine, 0.0).len(), 1);
    tell(&mut engine, &[("fresh.power", "off")], &at(1));
    assert!(read(&mut engine, 0.0)[0].contains("does not count: the gauge has no power"));
    assert!(read(&mut engine, 1.0)[0].contains("The reading gives"), "it shows that it has");
    tell(&mut engine, &[("pitch.ground", "sloping")], &at(1));
    assert!(!row(&engine).counts);
    assert!(read(&mut engine, 1.0)[0].contains("does not stand level"));
    let asked = row(&engine).questions;
    let chosen: Vec<_> = asked.iter().map(|one| (one.variable.as_str(), &one.chosen)).collect();
    let (off, sloping) = (Some("off".to_owned()), Some("sloping".to_owned()));
    assert_eq!(chosen, [("fresh.power", &off), ("pitch.ground", &sloping)]);
}

/// A lamp may light early or late by the gauge's error, which is the pack's.
#[test]
fn the_gauges_error_widens_what_a_lamp_says() {
    let said = |error: &str| {
        let old = "capacity_l = 100, gauge_shows = \"lamps\", gauge_error_pct = 2";
        let new = format!("capacity_l = 100, gauge_shows = \"lamps\", gauge_error_pct = {error}");
        let mut engine = changed(old, &new);
        engine.enter_reading("fresh", GaugeUnit::Lamps, 1.0, &at(1)).unwrap();
        let text = engine.log(1).unwrap().remove(0).text;
        (fresh(engine.gauges(&at(1)).unwrap()).current_text, text)
    };
    assert_eq!(said("0").0, "Low or at the travel fill");
    assert_eq!(said("4").0, "Empty, low, at the travel fill or above the travel fill");
}

/// "Between A and B litres" rounds outward: neither end is nearer than what the reading says.
#[test]
fn a_volume_is_rounded_outward() {
    let mut engine = changed("capacity_l = 100,", "capacity_l = 97.5,");
    let said = engine.enter_reading("fresh", GaugeUnit::Lamps, 1.0, &at(1)).unwrap().warnings;
    // 5 - 2 % and 33 + 2 % of 97.5 L: 2.925 and 34.124 L.
    assert!(said[0].contains("between 2 and 35 litres"), "{said:?}");
}

#[test]
fn what_a_vehicle_does_not_carry_is_not_said_to_be_shut() {
    let why = |engine: &mut Engine| {
        let facts = [("fridge.selector", "auto"), ("engine.running", "off")];
        tell(engine, &facts, &at(0));
        engine.fridge(&at(60)).unwrap().unwrap().why.join(" ")
    };
    let bare = why(&mut without(&["gas_left", "gas_right", "hose_left", "hose_right", "lead"]));
    assert!(bare.contains("This vehicle carries no gas."), "{bare}");
    assert!(bare.contains("This vehicle has no mains lead."), "{bare}");
    let mut shut = changed("stowfast_pack = 1", "stowfast_pack = 1");
    let known = [("gas_left.valve", "shut"), ("gas_right.valve", "shut"), ("lead.post_end", "out")];
    tell(&mut shut, &known, &at(0));
    let shut = why(&mut shut);
    assert!(shut.contains("Every gas cylinder is shut."), "{shut}");
    assert!(shut.contains("No mains reaches the vehicle."), "{shut}");
}

/// What is not fitted cannot be off: without a main switch, mains reaches as far as the lead.
#[test]
fn mains_reaches_a_vehicle_without_a_main_switch() {
    let mut engine = without(&["mains_switch"]);
    let hooked = [
        ("fridge.selector", "auto"),
        ("post.supply", "live"),
        ("post.switch", "on"),
        ("lead.vehicle_end", "in"),
        ("lead.post_end", "in"),
    ];
    tell(&mut engine, &hooked, &at(0));
    let source = |engine: &Engine| engine.fridge(&at(1)).unwrap().unwrap().source;
    assert_eq!(source(&engine), FridgeSource::Mains);
    tell(&mut engine, &[("post.switch", "off")], &at(1));
    assert_ne!(source(&engine), FridgeSource::Mains);
}

/// Each link of the chain counts for the fridge as it does for the test of the device.
#[test]
fn mains_reaches_exactly_where_the_device_can_be_tested() {
    let hooked = [
        ("mains_switch.lever", "on", "off"),
        ("lead.vehicle_end", "in", "out"),
        ("lead.post_end", "in", "part"),
        ("post.switch", "on", "off"),
        ("post.supply", "live", "dead"),
    ];
    for broken in [None, Some(0), Some(1), Some(2), Some(3), Some(4)] {
        let mut engine = changed("stowfast_pack = 1", "stowfast_pack = 1");
        tell(&mut engine, &[("fridge.selector", "auto"), ("engine.wheels", "still")], &at(0));
        for (number, (variable, holds, fails)) in hooked.iter().enumerate() {
            let setting = if broken == Some(number) { fails } else { holds };
            tell(&mut engine, &[(variable, setting)], &at(0));
        }
        let testable = engine.refusals("mains_switch.test_rcd", &at(1)).unwrap().is_empty();
        let reaches = engine.fridge(&at(1)).unwrap().unwrap().source == FridgeSource::Mains;
        assert_eq!((testable, reaches), (broken.is_none(), broken.is_none()), "{broken:?}");
    }
}

/// A vehicle without a lead is not offered hook-up, and asked for it says why not.
#[test]
fn a_target_is_offered_only_where_what_it_needs_is_fitted() {
    let offered = |engine: &Engine| {
        let rows = engine.targets().unwrap().into_iter();
        rows.map(|row| row.id).collect::<Vec<_>>()
    };
    let is_offered =
        |engine: &Engine, target: &str| offered(engine).iter().any(|one| one == target);
    assert!(is_offered(&demo(), "pitched_hookup"));
    let mut engine = without(&["lead"]);
    assert!(!is_offered(&engine, "pitched_hookup") && is_offered(&engine, "pitched_offgrid"));
    let preview = engine.preview("pitched_hookup", &at(1)).map(|_| ());
    let opened = engine.open_run("pitched_hookup", &at(1)).map(|_| ());
    for refused in [preview, opened] {
        let Err(Error::Conflict { detail }) = refused else { panic!("{refused:?}") };
        assert_eq!(detail, "Set up, with hook-up: this vehicle has no mains lead.");
    }
}

/// Nothing is asked of a setting that is not fitted: the fridge on 12 V and gas alone is no reason
/// why hook-up cannot be reached.
#[test]
fn a_goal_that_speaks_only_of_what_a_fitting_lacks_is_not_asked() {
    let old = "values = { gas_delay_min = 20, dc_w = 4, dc_heat_w = 135 }";
    let lacking = "without = { selector = [\"auto\", \"mains\"] }";
    let mut engine = changed(old, &format!("{old}\n{lacking}"));
    let arrived = [
        ("engine.running", "off"),
        ("handbrake.lever", "on"),
        ("post.supply", "live"),
        ("lead.coil", "stowed"),
        ("lead.vehicle_end", "out"),
        ("lead.post_end", "out"),
        ("boiler.heat", "off"),
        ("fresh.level", "travel"),
        ("fresh.drain", "shut"),
    ];
    tell(&mut engine, &arrived, &at(0));
    let page = engine.preview("pitched_hookup", &at(1)).unwrap();
    assert_eq!(page.impossible, [""; 0]);
    assert!(page.steps.iter().any(|step| step.id == "mains_switch.test_rcd"));
    assert!(page.steps.iter().all(|step| !step.id.starts_with("fridge.set")));
}

/// Off grid needs gas: where no flame may burn the rest is planned all the same, and only what is
/// given up is named as a reason.
#[test]
fn where_no_flame_may_burn_the_rest_is_planned_all_the_same() {
    let mut engine = demo();
    engine.report("pitch.flame", "forbidden", &at(1)).unwrap();
    let page = engine.preview("pitched_offgrid", &at(1)).unwrap();
    let ids: Vec<_> = page.steps.iter().map(|step| step.id.as_str()).collect();
    assert_eq!(ids[0], "fridge.set_off", "out of danger first");
    assert!(ids.contains(&"boiler.switch_off") && ids.contains(&"lead.stow"), "{ids:?}");
    assert!(!ids.contains(&"fridge.set_gas") && !ids.contains(&"boiler.heat_gas"), "{ids:?}");
    assert_eq!(page.impossible.len(), 2, "{:?}", page.impossible);
    assert!(page.impossible[0].contains("a gas cylinder is open"), "{:?}", page.impossible);
    let rule = &page.impossible[1];
    assert!(
        rule.starts_with("These do not go together: ") && rule.contains("flames: forbidden"),
        "{rule}"
    );
    assert!(rule.contains("Where no flame may burn"), "{rule}");
}
