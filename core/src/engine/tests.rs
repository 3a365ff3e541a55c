//! Tests of the one door, on a real engine with the demo vehicle.

mod aged;
mod alert;
mod alert_sign;
mod attend;
mod back;
mod clock;
mod diesel;
mod drive_card;
mod facts;
mod fault;
mod fault_odd;
mod find;
mod first;
mod fridge;
mod gas;
mod gesture;
mod heat;
mod level;
mod may;
mod photo;
mod place;
mod power;
mod remind;
mod report;
mod reserve;
mod road;
mod same_order;
mod settled;
mod stands;
mod stay;
mod supply;
mod take_back;
mod two;
mod typed;
mod variant;

use std::sync::Arc;

use super::{
    Changes, Engine, FridgeSource, GaugeUnit, OrderProof, SharedPage, StepKind, VerdictKind,
};
use crate::clock::Stamp;
use crate::error::Error;

const MIN: i64 = 60_000;
const PACK: &str = include_str!("../../../demo-data/a/pack.toml");

fn at(minutes: i64) -> Stamp {
    Stamp::utc(1_800_000_000_000 + minutes * MIN)
}

/// The demo vehicle as its trip leaves it, at minute 0.
fn demo() -> Engine {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo("a", &at(0)).unwrap();
    engine
}

/// The demo vehicle's pack with `old` replaced, and nothing said.
fn changed(old: &str, new: &str) -> Engine {
    assert!(PACK.contains(old), "{old}");
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_pack(&PACK.replace(old, new), "changed.toml", &at(0)).unwrap();
    engine
}

fn tell(engine: &mut Engine, facts: &[(&str, &str)], now: &Stamp) {
    for (variable, setting) in facts {
        engine.report(variable, setting, now).unwrap();
    }
}

/// Ticks whatever comes first until nothing is left, and lets time pass where that is it; how many
/// steps that took.
fn carry_out(engine: &mut Engine, now: &Stamp) -> usize {
    let mut now = now.clone();
    for taken in 0..60 {
        let page = engine.routine(&now).unwrap().unwrap();
        let Some(step) = page.steps.first() else {
            return taken;
        };
        match step.kind {
            StepKind::Wait => now.utc_ms += i64::from(step.wait_s.max(1)) * 1_000,
            _ => _ = engine.tick(&step.id, &now).unwrap(),
        }
    }
    panic!("no end to it");
}

#[test]
fn how_good_an_order_is_stands_in_json_as_text() {
    let said = [OrderProof::Exact, OrderProof::Gap { gap_s: 90 }, OrderProof::None]
        .map(|proof| serde_json::to_value(proof).unwrap());
    assert_eq!(said, ["exact", "gap 90 s", ""]);
    // Shared out, only these steps were considered.
    let two = demo().shared("ready_to_drive", &at(1)).unwrap();
    let two = serde_json::to_value(SharedPage { proof: OrderProof::Exact, ..two }).unwrap();
    assert_eq!(two["proof"], "order");
}

#[test]
fn leaving_reaches_clear_and_lapses() {
    let mut engine = demo();
    assert_eq!(engine.now_page(&at(0)).unwrap().verdict, VerdictKind::Blocked);
    engine.open_run("ready_to_drive", &at(1)).unwrap();
    let planned = engine.routine(&at(1)).unwrap().unwrap();
    assert_eq!(planned.proof, OrderProof::Exact);
    assert_eq!(carry_out(&mut engine, &at(5)), planned.steps.len());
    let page = engine.routine(&at(5)).unwrap().unwrap();
    assert!(page.finished);
    assert_eq!(page.end_text, "Everything on the list is done and looked at. Walk round is done.");
    let now = engine.now_page(&at(6)).unwrap();
    assert_eq!((now.verdict, now.items.len()), (VerdictKind::Clear, 0));
    assert!(now.detail.contains("1 min ago"), "{}", now.detail);
    assert_eq!(engine.now_page(&at(126)).unwrap().verdict, VerdictKind::Unknown);
    assert_eq!(engine.now_page(&at(2)).unwrap().verdict, VerdictKind::Unknown, "clock set back");
}

#[test]
fn the_same_leaving_looks_the_same_every_day() {
    let ids = |day: i64| {
        let mut engine = Engine::in_memory("en").unwrap();
        engine.add_demo("a", &at(day * 1_440)).unwrap();
        let page = engine.preview("ready_to_drive", &at(day * 1_440)).unwrap();
        page.steps.into_iter().map(|step| step.id).collect::<Vec<_>>()
    };
    assert_eq!(ids(0), ids(1));
}

#[test]
fn it_never_says_clear_with_the_water_hose_still_on() {
    let mut engine = demo();
    engine.open_run("ready_to_drive", &at(1)).unwrap();
    carry_out(&mut engine, &at(2));
    engine.report("fill_hose.hose", "connected", &at(3)).unwrap();
    let page = engine.now_page(&at(3)).unwrap();
    assert_eq!(page.verdict, VerdictKind::Blocked);
    assert_eq!(page.items[0].variable, "fill_hose.hose");
}

#[test]
fn taking_back_a_tick_brings_its_step_back() {
    let mut engine = demo();
    engine.open_run("ready_to_drive", &at(1)).unwrap();
    let before = engine.routine(&at(2)).unwrap().unwrap();
    let Changes { entries, .. } = engine.tick(&before.steps[0].id, &at(2)).unwrap();
    assert_ne!(engine.routine(&at(2)).unwrap().unwrap().steps, before.steps);
    engine.unmark(entries[0], &at(2)).unwrap();
    let after = engine.routine(&at(2)).unwrap().unwrap();
    assert_eq!(after.steps, before.steps);
    assert!(matches!(engine.unmark(entries[0], &at(2)), Err(Error::Conflict { .. })));
    assert!(matches!(engine.unmark(999, &at(2)), Err(Error::NotFound { .. })));
}

#[test]
fn a_report_out_of_order_is_taken_warned_about_and_planned_from() {
    let mut engine = demo();
    engine.open_run("ready_to_drive", &at(1)).unwrap();
    let changes = engine.tick("lead.disconnect_vehicle", &at(2)).unwrap();
    assert!(
        changes.warnings.iter().any(|line| line.contains("open to rain and fingers")),
        "{changes:?}"
    );
    let page = engine.routine(&at(2)).unwrap().unwrap();
    assert_eq!(page.verdict, VerdictKind::Blocked);
    let first: Vec<_> = page.steps.iter().take(2).map(|step| step.id.as_str()).collect();
    assert_eq!(first, ["post.switch_off", "lead.unplug"], "straight to the post");
}

#[test]
fn a_stuck_roof_light_says_what_cannot_be_and_can_be_freed() {
    let mut engine = demo();
    engine.open_run("ready_to_drive", &at(1)).unwrap();
    let stuck = engine.cannot("roof_bed.shut", "hinge bent", &at(2)).unwrap().entries[0];
    let page = engine.routine(&at(2)).unwrap().unwrap();
    assert!(!page.finished && page.steps.iter().all(|step| !step.id.starts_with("roof_bed")));
    assert_eq!(page.steps.len(), 23, "the rest goes on");
    assert!(page.impossible[0].starts_with("Roof light over the bed must be shut"));
    assert_eq!(page.stuck[0].entry, stuck);
    assert!(page.stuck[0].text.contains("hinge bent"));
    let [row] = page.cannot_move.as_slice() else { panic!("{:?}", page.cannot_move) };
    assert!(
        row.entry == stuck && row.text.starts_with("Do not drive with it like this."),
        "{row:?}"
    );
    assert!(page.impossible[1].contains(&row.text), "{:?}", page.impossible);
    let items = engine.now_page(&at(2)).unwrap().items;
    let item = items.iter().find(|item| item.variable == "roof_bed.leaf").unwrap();
    assert_eq!(item.stuck.as_ref(), Some(row), "the thing in the way says so too");
    assert!(items.iter().filter(|item| item.stuck.is_some()).count() == 1);
    carry_out(&mut engine, &at(3));
    let page = engine.routine(&at(3)).unwrap().unwrap();
    assert!(!page.finished && page.verdict == VerdictKind::Blocked, "never Clear");
    engine.clear_stuck(stuck, &at(3)).unwrap();
    assert_eq!(engine.routine(&at(3)).unwrap().unwrap().cannot_move, []);
    let steps = engine.routine(&at(3)).unwrap().unwrap().steps;
    assert!(steps.iter().any(|step| step.id == "roof_bed.shut"));
}

#[test]
fn a_load_that_stays_on_is_named_with_what_to_do_instead() {
    let mut engine = demo();
    engine.open_run("ready_to_drive", &at(1)).unwrap();
    engine.cannot("boiler.switch_off", "knob broken", &at(2)).unwrap();
    let said = engine.routine(&at(2)).unwrap().unwrap().impossible;
    let main = said.iter().find(|one| one.starts_with("Main switch by the door must be off"));
    let held = "Boiler: heating on mains, and cannot be moved. Appliances go off before the main";
    assert!(main.unwrap().contains(held), "{said:?}");
    let boiler = said.iter().find(|one| one.starts_with("Boiler cannot be moved."));
    assert!(boiler.unwrap().contains("Switch off its own breaker, or the post"), "{said:?}");

    engine.report("boiler.heat", "off", &at(3)).unwrap();
    let page = engine.routine(&at(3)).unwrap().unwrap();
    assert_eq!(page.impossible, [""; 0]);
    assert!(page.steps.iter().any(|step| step.id == "mains_switch.switch_off"));
}

#[test]
fn left_anyway_is_logged_and_changes_no_verdict() {
    let mut engine = demo();
    engine.open_run("ready_to_drive", &at(1)).unwrap();
    let before = engine.now_page(&at(1)).unwrap();
    engine.left_anyway("drawers.latch", "full of maps", &at(1)).unwrap();
    let after = engine.now_page(&at(1)).unwrap();
    assert_eq!((before.verdict, before.items), (after.verdict, after.items));
    let page = engine.routine(&at(1)).unwrap().unwrap();
    assert!(page.steps.iter().all(|step| step.id != "drawers.latch"), "not asked for again");
    carry_out(&mut engine, &at(2));
    assert!(!engine.routine(&at(2)).unwrap().unwrap().finished, "and never Clear");
    assert!(engine.routine(&at(2)).unwrap().unwrap().stuck[0].text.contains("full of maps"));
}

#[test]
fn a_pause_asks_for_the_looks_again() {
    let mut engine = demo();
    engine.open_run("ready_to_drive", &at(1)).unwrap();
    let first = engine.routine(&at(1)).unwrap().unwrap().steps[0].clone();
    engine.tick(&first.id, &at(2)).unwrap();
    engine.pause(&at(3)).unwrap();
    assert!(matches!(engine.pause(&at(3)), Err(Error::Conflict { .. })));
    engine.resume(&at(4)).unwrap();
    let page = engine.routine(&at(4)).unwrap().unwrap();
    assert!(page.resumed_from_pause);
    assert!(
        page.steps.iter().any(|step| step.kind == StepKind::Look && step.id.starts_with("roof_"))
    );
}

#[test]
fn a_lapsed_departure_is_opened_again_by_the_next_tick() {
    let mut engine = demo();
    engine.open_run("ready_to_drive", &at(1)).unwrap();
    let step = engine.routine(&at(1)).unwrap().unwrap().steps[0].id.clone();
    engine.tick(&step, &at(1)).unwrap();
    let late = at(3 * 1_440);
    let page = engine.routine(&late).unwrap().unwrap();
    assert!(page.warnings[0].contains("too old"), "{:?}", page.warnings);
    let changes = engine.tick(&page.steps[0].id, &late).unwrap();
    assert_eq!(changes.entries.len(), 2, "taken up again and ticked, in one transaction");
    assert!(engine.routine(&late).unwrap().unwrap().warnings.is_empty());
}

/// Common practice, no source: mains comes before gas on hook-up; 12 V holds but does not cool; an
/// automatic fridge waits after the engine stops before it lights gas, for as long as the pack says.
#[test]
fn the_fridge_follows_mains_then_the_engine_then_gas_after_the_packs_delay() {
    for delay in [20, 7] {
        let mut engine = changed("gas_delay_min = 20", &format!("gas_delay_min = {delay}"));
        let hooked = [
            ("fridge.selector", "auto"),
            ("gas_left.valve", "open"),
            ("engine.running", "off"),
            ("post.supply", "live"),
            ("post.switch", "on"),
            ("lead.vehicle_end", "in"),
            ("lead.post_end", "in"),
            ("mains_switch.lever", "on"),
        ];
        tell(&mut engine, &hooked, &at(0));
        let source = |engine: &Engine, minute: i64| engine.fridge(&at(minute)).unwrap().unwrap();
        assert_eq!(source(&engine, 60).source, FridgeSource::Mains);
        tell(&mut engine, &[("lead.post_end", "out"), ("engine.running", "on")], &at(61));
        let driving = source(&engine, 62);
        assert_eq!(driving.source, FridgeSource::Dc);
        assert!(driving.cautions[0].contains("does not cool a warm fridge down"), "{driving:?}");
        tell(&mut engine, &[("engine.running", "off")], &at(100));
        let waiting = source(&engine, 102);
        assert_eq!(waiting.source, FridgeSource::None);
        assert_eq!(waiting.next_source, Some(FridgeSource::Gas));
        assert_eq!(waiting.next_change_utc_ms, Some(at(100 + delay).utc_ms));
        assert_eq!(source(&engine, 100 + delay).source, FridgeSource::Gas);
    }
}

/// Common practice, no source: a hot boiler is not drained; for how long after it is switched off,
/// the pack says. Where nobody knows when it was switched off, that is not known either.
#[test]
fn a_boiler_just_switched_off_is_not_drained() {
    for minutes in [60, 90] {
        let mut engine = changed("dc_w = 14", &format!("dc_w = 14, cool_min = {minutes}"));
        let refused = |engine: &Engine, minute: i64| {
            engine.refusals("boiler.open_drain", &at(minute)).unwrap().concat().contains("scalds")
        };
        tell(&mut engine, &[("boiler.heat", "electric"), ("pump.power", "off")], &at(0));
        tell(&mut engine, &[("boiler.heat", "off")], &at(10));
        assert!(refused(&engine, 9 + minutes));
        assert!(!refused(&engine, 10 + minutes));
        assert!(refused(&engine, 9), "the clock was set back");
    }
    let mut engine = changed("title = \"boiler\"", "title = \"boiler\"");
    tell(&mut engine, &[("boiler.heat", "off"), ("boiler.drain", "open")], &at(0));
    let page = engine.now_page(&at(1)).unwrap();
    assert!(page.items.iter().all(|item| !item.reason.contains("scalds")), "not known, not broken");
}

#[test]
fn no_minutes_are_counted_on_a_manual_fridge() {
    let mut engine = changed(
        "values = { gas_delay_min = 20, dc_w = 4, dc_heat_w = 135 }",
        "values = { gas_delay_min = 20, dc_w = 4, dc_heat_w = 135 }\nwithout = { selector = [\"auto\"] }",
    );
    tell(
        &mut engine,
        &[("fridge.selector", "gas"), ("gas_left.valve", "open"), ("engine.running", "off")],
        &at(0),
    );
    let page = engine.fridge(&at(1)).unwrap().unwrap();
    assert_eq!((page.source, page.next_change_utc_ms), (FridgeSource::Gas, None));
    assert!(page.choices.iter().all(|choice| choice.id != "auto"));
    assert!(matches!(
        engine.report("fridge.selector", "auto", &at(1)),
        Err(Error::InvalidInput { .. })
    ));
}

#[test]
fn a_reading_that_straddles_two_bands_gives_both() {
    let mut engine = demo();
    let changes = engine.enter_reading("fresh", GaugeUnit::Lamps, 1.0, &at(1)).unwrap();
    assert!(changes.warnings[0].contains("low or at the travel fill"), "{:?}", changes.warnings);
    let row = engine.gauges(&at(1)).unwrap().into_iter().find(|row| row.id == "fresh").unwrap();
    assert_eq!(row.current_text, "Low or at the travel fill");
    assert_eq!(row.choices.len(), 5);
}

#[test]
fn a_reading_is_taken_in_the_gauges_own_unit_and_range() {
    for (shows, unit, most) in
        [("percent", GaugeUnit::Percent, 100.0), ("litres", GaugeUnit::Litres, 100.0)]
    {
        let old = "capacity_l = 100, gauge_shows = \"lamps\"";
        let mut engine = changed(old, &format!("capacity_l = 100, gauge_shows = \"{shows}\""));
        tell(&mut engine, &[("engine.wheels", "still")], &at(0));
        engine.enter_reading("fresh", unit, most, &at(1)).unwrap();
        for bad in [-1.0, most + 1.0, f64::NAN, f64::INFINITY] {
            let refused = engine.enter_reading("fresh", unit, bad, &at(1));
            assert!(matches!(refused, Err(Error::InvalidInput { .. })), "{bad}");
        }
        assert!(engine.enter_reading("fresh", GaugeUnit::Lamps, 1.0, &at(1)).is_err());
    }
    assert!(matches!(
        demo().enter_reading("loft", GaugeUnit::Lamps, 1.0, &at(1)),
        Err(Error::NotFound { .. })
    ));
}

/// The bands are the pack's: with other edges the same reading means another band.
#[test]
fn the_edges_of_the_bands_are_pack_values() {
    let said = |edges: &str| {
        let values = format!(
            "capacity_l = 100, gauge_shows = \"percent\", gauge_error_pct = 0, band_edges_pct = {edges}"
        );
        let old = "capacity_l = 100, gauge_shows = \"lamps\", gauge_error_pct = 2";
        let mut engine = changed(old, &values);
        engine.enter_reading("fresh", GaugeUnit::Percent, 30.0, &at(1)).unwrap();
        facts::fresh(engine.gauges(&at(1)).unwrap()).current_text
    };
    assert_eq!(said("[2, 15, 35, 90]"), "At the travel fill");
    assert_eq!(said("[2, 40, 60, 90]"), "Low");
}

/// What is left behind by driving off is as little known as at first, and the engine runs.
#[test]
fn driving_off_forgets_the_pitch_and_the_handbrake() {
    let mut engine = demo();
    engine.report("engine.wheels", "moving", &at(1)).unwrap();
    let page = engine.now_page(&at(1)).unwrap();
    assert_eq!(page.place_title, "");
    let page = engine.preview("pitched_hookup", &at(1)).unwrap();
    assert!(page.steps.is_empty() && page.impossible[0].contains("Mains at the post"), "{page:?}");
    engine.report("post.supply", "live", &at(2)).unwrap();
    let page = engine.preview("pitched_offgrid", &at(2)).unwrap();
    let ids: Vec<_> = page.steps.iter().map(|step| step.id.as_str()).collect();
    assert_eq!(ids.first(), Some(&"engine.stop"));
    assert!(ids.contains(&"handbrake.pull") && ids.contains(&"engine.switch_off"), "{ids:?}");
}

/// Common practice, no source: a leisure battery reads true only unhooked and rested, for as many
/// hours as the pack says.
#[test]
fn a_battery_reads_true_only_unhooked_and_rested() {
    for hours in [3, 5] {
        let old = "chemistry = \"agm\"";
        let mut engine = changed(old, &format!("{old}, rest_h = {hours}"));
        let rest = [
            ("engine.running", "off"),
            ("battery.load", "little"),
            ("lead.post_end", "out"),
            ("mains_switch.lever", "off"),
        ];
        tell(&mut engine, &rest, &at(0));
        let noted = |engine: &mut Engine, minute: i64| {
            let changes = engine.enter_reading("battery", GaugeUnit::Volts, 12.5, &at(minute));
            changes.unwrap().warnings.remove(0)
        };
        let early = noted(&mut engine, hours * 60 - 1);
        assert!(early.contains("does not count"), "{early}");
        let charge = |engine: &Engine| engine.gauges(&at(1)).unwrap().pop().unwrap().current_text;
        assert_eq!(charge(&engine), "Not known");
        let rested = noted(&mut engine, hours * 60);
        assert!(rested.contains("half full or good"), "{rested}");
        tell(&mut engine, &[("engine.running", "on")], &at(hours * 60 + 1));
        let charging = noted(&mut engine, hours * 60 + 2);
        assert!(charging.contains("the engine charges the battery"), "{charging}");
    }
}

/// Both ends are compared as values: "1" is the same as "1", and "1" is not "10".
#[test]
fn a_range_whose_ends_are_the_same_is_one_number() {
    use crate::reserve::Amount;
    let engine = demo();
    let words = engine.loaded().unwrap().words("en").unwrap();
    let said = |lower, upper| words.a_day(Amount::Millilitres, lower, upper);
    assert_eq!(said(3_000, 3_000), "about 3 litres a day");
    assert_eq!(said(1_000, 10_000), "about 1 to 10 litres a day");
    assert_eq!(words.a_day(Amount::Permille, 10, 10), "about 1 per cent a day");
    assert_eq!(words.between(Amount::Permille, 0, 1), "between 0 and 1 per cent");
}

#[test]
fn a_finder_is_made_anew_where_the_units_change() {
    let mut engine = demo();
    let kept = |engine: &Engine| engine.loaded().unwrap().finder.lock().unwrap().is_some();
    engine.find("boiler").unwrap();
    assert!(kept(&engine));
    engine.set_units("imperial").unwrap();
    assert!(!kept(&engine));
}

#[test]
fn a_bad_pack_changes_nothing() {
    let mut engine = demo();
    let before = engine.vehicles().unwrap();
    let log = engine.log(100).unwrap();
    let refused = engine.add_pack("stowfast_pack = 1\nnonsense", "bad.toml", &at(1));
    assert!(matches!(refused, Err(Error::Pack { line: 2, .. })), "{refused:?}");
    assert_eq!(engine.vehicles().unwrap(), before);
    assert_eq!(engine.log(100).unwrap(), log);
}

#[test]
fn without_a_vehicle_every_page_says_so() {
    let engine = Engine::in_memory("en").unwrap();
    assert!(engine.vehicles().unwrap().is_empty());
    assert!(matches!(engine.now_page(&at(0)), Err(Error::Conflict { .. })));
    let demos = engine.demos().unwrap();
    assert!(demos[0].id == "a" && demos.iter().all(|row| !row.here));
}

#[test]
fn a_demonstration_that_is_here_already_says_so() {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo("b", &at(0)).unwrap();
    let here: Vec<_> = engine.demos().unwrap().into_iter().filter(|row| row.here).collect();
    assert!(here.len() == 1 && here[0].id == "b", "{here:?}");
}

/// Every sentence that the engine asks for by name stands in the text.
#[test]
fn every_sentence_has_its_words() {
    let text =
        crate::catalogue::text::of(crate::catalogue::Catalogue::built_in().unwrap(), "en").unwrap();
    let sources = [
        include_str!("now.rs"),
        include_str!("run.rs"),
        include_str!("log.rs"),
        include_str!("gauge.rs"),
        include_str!("advice.rs"),
        include_str!("command.rs"),
        include_str!("words.rs"),
        include_str!("way.rs"),
        include_str!("confirm.rs"),
        include_str!("stop.rs"),
    ];
    let mut asked = 0;
    for source in sources {
        for call in [".say(\"", ".count(\"", "(words, entry, \"", "if read { \"", "else { \"log"] {
            for rest in source.split(call).skip(1) {
                let key = rest.split('"').next().unwrap();
                let key = if call.ends_with("log") { format!("log{key}") } else { key.to_owned() };
                assert!(text.has(&format!("say.{key}")), "no words for `{key}`");
                asked += 1;
            }
        }
    }
    assert!(asked > 50, "only {asked} found");
}

/// Two pages that ask for the same way share one plan; nothing is answered from a plan that no
/// longer holds, whether something was said, a look lapsed or a boiler cooled.
#[test]
fn a_way_is_planned_once_and_anew_when_what_it_depends_on_has_changed() {
    let mut engine = demo();
    engine.open_run("ready_to_drive", &at(0)).unwrap();
    engine.tick("boiler.switch_off", &at(0)).unwrap();
    let way = |engine: &Engine, minute: i64| {
        let loaded = engine.loaded().unwrap();
        loaded.way(loaded.catalogue.target("ready_to_drive").unwrap(), &at(minute)).unwrap()
    };
    engine.now_page(&at(1)).unwrap();
    let first = way(&engine, 1);
    engine.routine(&at(1)).unwrap();
    assert!(Arc::ptr_eq(&first, &way(&engine, 1)), "planned once");
    assert!(!Arc::ptr_eq(&first, &way(&engine, 2)), "the boiler cools");
    assert!(!Arc::ptr_eq(&first, &way(&engine, 60)), "the boiler is cold");
    let second = way(&engine, 61);
    engine.tick("drawers.latch", &at(61)).unwrap();
    assert!(!Arc::ptr_eq(&second, &way(&engine, 61)), "something was said");
    for minute in [61, 62, 120, 121, 122, 3_000, 60] {
        let kept = engine.preview("ready_to_drive", &at(minute)).unwrap();
        engine.load().unwrap();
        assert_eq!(kept, engine.preview("ready_to_drive", &at(minute)).unwrap(), "{minute}");
    }
}

#[test]
fn a_routine_that_was_closed_and_opened_again_starts_anew() {
    let mut engine = demo();
    let first = engine.open_run("ready_to_drive", &at(1)).unwrap().entries[0];
    let planned = engine.routine(&at(1)).unwrap().unwrap();
    engine.tick("gas_left.shut", &at(1)).unwrap();
    engine.left_anyway("step.in", "", &at(1)).unwrap();
    engine.cannot("roof_bed.shut", "", &at(1)).unwrap();
    engine.close_run(&at(2)).unwrap();
    assert!(engine.routine(&at(2)).unwrap().is_none());
    assert!(matches!(engine.close_run(&at(2)), Err(Error::Conflict { .. })), "it has ended");
    assert!(matches!(engine.pause(&at(2)), Err(Error::Conflict { .. })));
    let second = engine.open_run("ready_to_drive", &at(3)).unwrap().entries[0];
    let page = engine.routine(&at(3)).unwrap().unwrap();
    assert!(second > first && page.run.id == second && page.done.is_empty());
    let has = |id: &str| page.steps.iter().any(|step| step.id == id);
    assert!(has("step.in"), "what was left then is asked for again");
    assert!(
        !has("gas_left.shut") && has("gas_left.valve.look"),
        "done, but not for this departure"
    );
    assert!(page.stuck.iter().any(|row| row.text.contains("Cannot")), "still stuck");
    assert_eq!(page.steps.len() + 1, planned.steps.len(), "all but the stuck one");
}

/// Facts are never refused: outside a routine a move and a look are as good as within one.
#[test]
fn what_is_done_outside_a_routine_counts_as_a_fact() {
    let mut engine = demo();
    engine.tick("gas_left.shut", &at(1)).unwrap();
    engine.look("roof_lounge.leaf.look", "shut", &at(1)).unwrap();
    let stuck = engine.cannot("roof_bed.shut", "hinge bent", &at(1)).unwrap().entries[0];
    let items = engine.now_page(&at(1)).unwrap().items;
    let seen = |id: &str| items.iter().find(|item| item.variable == id).unwrap();
    assert!(!seen("gas_left.valve").known_bad && !seen("roof_lounge.leaf").known_bad);
    let page = engine.preview("ready_to_drive", &at(1)).unwrap();
    assert_eq!(page.stuck[0].entry, stuck);
    engine.open_run("ready_to_drive", &at(2)).unwrap();
    let steps = engine.routine(&at(2)).unwrap().unwrap().steps;
    assert!(steps.iter().any(|step| step.id == "gas_left.valve.look"), "but not as fresh");
    assert!(matches!(engine.look("roof_bed.shut", "shut", &at(2)), Err(Error::NotFound { .. })));
    let mut engine = demo();
    assert!(matches!(engine.tick("gas_left.valve.look", &at(1)), Err(Error::Conflict { .. })));
    assert!(matches!(engine.left_anyway("step.in", "", &at(1)), Err(Error::Conflict { .. })));
}

/// What is no longer fitted is named in the words of the pack so far, and what was set right on the
/// way, a routine included, goes on.
#[test]
fn a_replaced_pack_names_what_is_no_longer_fitted() {
    let mut engine = demo();
    let id = engine.vehicles().unwrap()[0].id;
    let run = engine.open_run("ready_to_drive", &at(1)).unwrap().entries[0];
    engine.cannot("window_bed.shut", "hinge bent", &at(1)).unwrap();
    let smaller = PACK.replace("id = \"window_bed\"", "id = \"window_rear\"").replace(
        "values = { gas_delay_min = 20, dc_w = 4, dc_heat_w = 135 }",
        "without = { selector = [\"auto\"] }",
    );
    let before = engine.log(100).unwrap();
    for (id, pack) in [(id, "stowfast_pack = 1\nnonsense"), (77, smaller.as_str())] {
        assert!(engine.replace_pack(id, pack, "new.toml", &at(2)).is_err());
        assert_eq!(engine.log(100).unwrap(), before);
    }
    let changes = engine.replace_pack(id, &smaller, "new.toml", &at(2)).unwrap();
    let [warning] = changes.warnings.as_slice() else { panic!("{changes:?}") };
    assert!(
        warning.ends_with("fridge: on automatic; Shut and lock the window by the bed"),
        "{warning}"
    );
    let page = engine.routine(&at(2)).unwrap().unwrap();
    assert_eq!((page.run.id, page.stuck.len()), (run, 0));
    assert!(page.steps.iter().any(|step| step.id == "window_rear.leaf.look"));
    let log = engine.log(100).unwrap();
    assert_eq!(log.len(), before.len() + 1);
    assert!(log[0].text.contains("replaced by new.toml"), "{}", log[0].text);
    engine.replace_pack(id, PACK, "old.toml", &at(3)).unwrap();
    assert_eq!(engine.routine(&at(3)).unwrap().unwrap().stuck.len(), 1, "nothing was lost");
}
