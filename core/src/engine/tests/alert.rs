//! What shows red, in the demo vehicles. Facts of the trade: common practice, no source.

use super::super::{ActionRow, LinkRow, MeaningRow, ReportRow};
use super::{Engine, at};
use crate::alert::Shown;

fn demo(id: &str) -> Engine {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo(id, &at(0)).unwrap();
    engine
}

/// What an alert means after some reports.
fn meaning(engine: &mut Engine, alert: &str, told: &[(&str, &str)]) -> MeaningRow {
    for (variable, setting) in told {
        engine.report(variable, setting, &at(1)).unwrap();
    }
    engine.alert(alert, &at(2)).unwrap().meanings.remove(0)
}

#[test]
fn a_fresh_gauge_at_red_means_refill_and_a_waste_gauge_at_red_means_empty_it() {
    let mut engine = demo("c");
    let told = [("pitch.water", "tap"), ("pitch.waste_point", "here")];
    let fresh = meaning(&mut engine, "fresh.empty", &told);
    assert!(fresh.text.contains("Red on fresh water means refill"), "{}", fresh.text);
    assert_eq!(fresh.routine.unwrap().id, "serviced/water");
    let waste = meaning(&mut engine, "waste.full", &[]);
    assert!(waste.text.contains("Red on waste water means empty it"), "{}", waste.text);
    assert_eq!(waste.routine.unwrap().id, "serviced/waste");
    let none = meaning(&mut engine, "waste.full", &[("pitch.waste_point", "none")]);
    assert_eq!((none.id.as_str(), none.routine), ("no_point", None));
}

#[test]
fn a_boiler_lit_on_gas_under_its_cover_locks_out_with_a_red_lamp() {
    let mut engine = demo("a");
    let told = [("boiler.heat", "gas"), ("boiler.cover", "on"), ("boiler.lamp", "red")];
    let found = meaning(&mut engine, "boiler.locked_out", &told);
    assert_eq!((found.id.as_str(), found.certain), ("cover_on", true));
    let steps: Vec<_> = found.steps.iter().map(|step| step.id.as_str()).collect();
    assert_eq!(steps, ["boiler.switch_off", "boiler.cover_off"]);
    assert!(found.do_now[0].contains("Switch the boiler off"));
    assert_eq!(engine.alerts(&at(2)).unwrap()[0].id, "boiler.locked_out");

    engine.tick("boiler.switch_off", &at(3)).unwrap();
    let page = engine.alert("boiler.locked_out", &at(4)).unwrap();
    assert_eq!(page.alert.shown, Shown::Yes, "it stands until somebody says that it is out");
    let out = page.cleared.unwrap();
    engine.report(&out.variable, &out.setting, &at(5)).unwrap();
    let page = engine.alert("boiler.locked_out", &at(5)).unwrap();
    assert_eq!((page.alert.shown, page.cleared), (Shown::No, None));
    let gas = [("boiler.cover", "off"), ("gas_left.valve", "shut"), ("gas_right.valve", "shut")];
    assert_eq!(meaning(&mut engine, "boiler.locked_out", &gas).id, "gas_shut");
    let dry = [("gas_left.valve", "open"), ("boiler.drain", "open")];
    assert_eq!(meaning(&mut engine, "boiler.locked_out", &dry).id, "no_water");
}

#[test]
fn a_pump_that_never_stops_means_no_water_an_open_tap_or_an_open_drain() {
    let mut engine = demo("a");
    let told = [("fresh.level", "full"), ("tap_galley.lever", "shut"), ("boiler.drain", "shut")];
    let found = meaning(&mut engine, "pump.never_stops", &told);
    assert!(found.text.contains("no water, an open tap, or an open drain"), "{}", found.text);
    assert_eq!(found.finds.len(), 3);
    for (told, id) in [
        (("tap_galley.lever", "hot"), "tap_open"),
        (("boiler.drain", "open"), "drain_open"),
        (("fresh.level", "empty"), "no_water"),
    ] {
        assert_eq!(meaning(&mut engine, "pump.never_stops", &[told]).id, id);
    }
    engine.report("pump.power", "on", &at(3)).unwrap();
    assert_eq!(engine.alert("pump.never_stops", &at(3)).unwrap().alert.shown, Shown::Yes);
}

#[test]
fn the_vehicles_own_switch_and_rcd_come_before_the_post() {
    let mut engine = demo("a");
    let found = meaning(&mut engine, "mains_lead.no_mains", &[]);
    assert!(!found.certain && found.id == "unclear");
    let at = |words: &str| found.do_now.iter().position(|line| line.contains(words)).unwrap();
    assert!(at("own main switch and RCD first") < at("look at the post"));
    assert_eq!(found.steps.first().unwrap().id, "mains_switch.lever.look");
    assert_eq!(found.steps.last().unwrap().id, "post.switch.look");
}

#[test]
fn no_mains_means_what_is_off_and_nothing_where_none_is_wanted() {
    for (told, id, normal) in [
        (("lead.vehicle_end", "out"), "not_plugged_in", true),
        (("mains_switch.lever", "off"), "main_switch_off", false),
        (("mains_switch.device", "failed"), "rcd_failed", false),
        (("post.switch", "off"), "post_off", false),
        (("post.supply", "dead"), "post_dead", false),
        (("post.supply", "none"), "none_here", true),
        (("engine.wheels", "moving"), "driving", true),
    ] {
        let mut engine = demo("a");
        let found = meaning(&mut engine, "mains_lead.no_mains", &[told]);
        assert_eq!((found.id.as_str(), found.normal, found.certain), (id, normal, true));
        let page = engine.alert("mains_lead.no_mains", &at(2)).unwrap();
        assert!(!normal || page.meanings.iter().all(|one| one.certain), "no guess: {id}");
        let first = engine.alerts(&at(2)).unwrap().remove(0);
        let shows = ["main_switch_off", "post_off", "post_dead"].contains(&id);
        assert_eq!(first.id == "mains_lead.no_mains" && first.shown == Shown::Yes, shows, "{id}");
    }
}

#[test]
fn a_battery_lamp_while_the_diesel_heater_lights_is_normal_to_flicker() {
    let mut engine = demo("b");
    let told = [("heater.heat", "high")];
    let found = meaning(&mut engine, "battery.low", &told);
    assert_eq!(found.id, "heater_lights");
    assert!(found.text.contains("flicker") && found.text.contains("normal"), "{}", found.text);
}

#[test]
fn a_fridge_without_a_source_says_which_one_is_missing() {
    let mut engine = demo("a");
    let shut =
        [("gas_left.valve", "shut"), ("gas_right.valve", "shut"), ("fridge.selector", "gas")];
    assert_eq!(meaning(&mut engine, "fridge.no_source", &shut).id, "gas_shut");
    assert_eq!(engine.alert("fridge.no_source", &at(2)).unwrap().alert.shown, Shown::Yes);
    let dc = meaning(&mut engine, "fridge.no_source", &[("fridge.selector", "dc")]);
    assert_eq!(dc.id, "engine_off");
    assert!(dc.stop_now[0].contains("flat in a few hours"));
    let mains = [("fridge.selector", "mains"), ("post.supply", "dead")];
    assert_eq!(meaning(&mut engine, "fridge.no_source", &mains).id, "no_mains");
    assert!(meaning(&mut engine, "fridge.no_source", &[("fridge.selector", "off")]).normal);
}

/// A number of the pack is said with its own value, and that it is a default only where it is.
#[test]
fn an_alert_says_the_numbers_of_this_vehicle() {
    let mut engine = demo("a");
    let found = meaning(&mut engine, "fridge.no_source", &[("fridge.selector", "auto")]);
    assert!(found.text.contains("about 20 minutes"), "{}", found.text);
}

#[test]
fn tapping_an_alert_reports_it_and_what_shows_comes_first() {
    let mut engine = demo("c");
    for row in engine.alerts(&at(0)).unwrap() {
        let Some(report) = row.report else { continue };
        engine.report(&report.variable, &report.setting, &at(1)).unwrap();
        let rows = engine.alerts(&at(1)).unwrap();
        let now = rows.iter().find(|one| one.id == row.id).unwrap();
        assert_eq!(now.shown, Shown::Yes, "{}", row.id);
        let quiet = rows.iter().position(|one| one.shown != Shown::Yes || one.normal);
        let last = rows.iter().rposition(|one| one.shown == Shown::Yes && !one.normal);
        assert!(last.is_none_or(|last| quiet.is_none_or(|quiet| last < quiet)));
    }
}

#[test]
fn every_link_of_every_alert_and_card_resolves() {
    let mut followed = 0;
    for id in ["a", "b", "c"] {
        let engine = demo(id);
        let (steps, things) = (engine.steps().unwrap(), engine.things(&at(0)).unwrap());
        let targets = engine.targets().unwrap();
        let is_step = |row: &ActionRow| steps.contains(row);
        let can_be = |row: &ReportRow| {
            let thing = things.iter().find(|thing| thing.variable == row.variable);
            thing.is_some_and(|thing| thing.choices.iter().any(|one| one.id == row.setting))
        };
        let is_aim = |row: &LinkRow| {
            let (target, part) = row.id.split_once('/').unwrap_or((&row.id, ""));
            let known = targets.iter().find(|known| known.id == target);
            known.is_some_and(|it| part.is_empty() || it.parts.iter().any(|own| own.id == part))
        };
        for row in engine.alerts(&at(0)).unwrap() {
            let page = engine.alert(&row.id, &at(0)).unwrap();
            assert_eq!(page.alert, row);
            assert!(!page.meanings.is_empty() && !page.help.is_empty(), "{}", row.id);
            assert!(
                page.cards.iter().all(|link| engine.card(&link.id, &at(0)).is_ok()),
                "{}",
                row.id
            );
            assert!(!page.cards.is_empty(), "{} has a card", row.id);
            for link in &page.faults {
                let back = engine.fault(&link.id, &at(0)).unwrap().shows_red;
                assert!(back.iter().any(|one| one.id == row.id), "{}: {}", row.id, link.id);
            }
            assert!(row.report.iter().all(can_be));
            for meaning in page.meanings {
                assert!(!meaning.do_now.is_empty() && !meaning.stop_now.is_empty());
                assert!(meaning.steps.iter().all(is_step) && meaning.finds.iter().all(can_be));
                assert!(meaning.routine.iter().all(is_aim), "{}", row.id);
                followed += 1;
            }
        }
        for row in engine.cards().unwrap() {
            let page = engine.card(&row.id, &at(0)).unwrap();
            assert!(page.sections.iter().all(|one| !one.lines.is_empty()), "{}", row.id);
            assert!(page.steps.iter().all(|one| steps.iter().any(|step| step.id == one.id)));
            let answers = |link: &LinkRow| engine.alert(&link.id, &at(0)).is_ok();
            assert!(page.alerts.iter().all(answers), "{}", row.id);
            assert!(page.routines.iter().all(is_aim), "{}", row.id);
            for link in &page.faults {
                let back = engine.fault(&link.id, &at(0)).unwrap().cards;
                assert!(back.iter().any(|one| one.id == row.id), "{}: {}", row.id, link.id);
            }
            assert!(page.steps.iter().all(|step| step.id.starts_with(&format!("{}.", row.id))));
            followed += 1;
        }
    }
    assert!(followed > 80, "only {followed}");
}

#[test]
fn every_link_of_every_fault_leads_there_and_back() {
    let mut begun = 0;
    for id in ["a", "b", "c"] {
        let engine = demo(id);
        for row in engine.faults(&at(0)).unwrap() {
            let page = engine.fault(&row.id, &at(0)).unwrap();
            assert!(!page.cards.is_empty(), "{} has a card", row.id);
            for card in &page.cards {
                let back = engine.card(&card.id, &at(0)).unwrap().faults;
                assert!(back.iter().any(|link| link.id == row.id), "{}: {}", row.id, card.id);
            }
            for alert in &page.shows_red {
                let back = engine.alert(&alert.id, &at(0)).unwrap().faults;
                assert!(back.iter().any(|link| link.id == row.id), "{}: {}", row.id, alert.id);
                begun += 1;
            }
        }
    }
    assert!(begun > 20, "only {begun}");
}

#[test]
fn an_alert_names_the_searches_that_begin_from_it_and_an_alarm_of_life_none() {
    let engine = demo("c");
    let faults = |alert: &str| -> Vec<String> {
        let rows = engine.alert(alert, &at(0)).unwrap().faults;
        rows.into_iter().map(|link| link.id).collect()
    };
    assert_eq!(faults("boiler.locked_out"), ["no_hot_water", "boiler_locks_out"]);
    assert_eq!(faults("waste_bath.full"), ["waste_does_not_drain.waste_bath"], "its own tank");
    for alarm in ["co_alarm.sounds", "gas_alarm.sounds", "smoke_alarm.sounds"] {
        assert!(faults(alarm).is_empty(), "{alarm}: nobody searches for a cause then");
    }
}

#[test]
fn a_card_names_once_each_routine_that_its_alerts_lead_to() {
    let waste = demo("a").card("waste", &at(0)).unwrap();
    let ids: Vec<_> = waste.routines.iter().map(|link| link.id.as_str()).collect();
    assert_eq!(ids, ["laid_up_winter", "sleeping", "serviced/waste"]);
}

#[test]
fn a_step_names_the_card_of_its_fitting() {
    let engine = demo("a");
    let steps = engine.preview("ready_to_drive", &at(0)).unwrap().steps;
    assert!(!steps.is_empty());
    for step in &steps {
        assert_eq!(step.card.as_deref(), step.id.split('.').next(), "{}", step.id);
        assert!(engine.card(step.card.as_ref().unwrap(), &at(0)).is_ok(), "{}", step.id);
    }
}

#[test]
fn every_fitting_has_a_card_that_says_all_there_is_to_say() {
    for id in ["a", "b", "c"] {
        let engine = demo(id);
        let cards = engine.cards().unwrap();
        for step in engine.steps().unwrap() {
            let own = step.id.split('.').next().unwrap();
            assert!(cards.iter().any(|card| card.id == own), "{}", step.id);
        }
        for row in cards {
            let page = engine.card(&row.id, &at(0)).unwrap();
            assert_eq!(page.sections.len(), crate::card::SECTIONS.len(), "{}", row.id);
            let said = page.sections.iter().flat_map(|part| &part.lines);
            assert!(said.clone().all(|line| !line.contains(['{', '}'])), "{}", row.id);
            assert!(!row.zone_title.is_empty() && !row.title.is_empty(), "{}", row.id);
        }
    }
}

#[test]
fn a_card_shows_the_technicians_note_and_names_a_photo_that_is_not_here() {
    let pack = include_str!("../../../../demo-data/a/pack.toml");
    let note = "note = \"Behind the lower locker door.\"";
    let photo = format!("{note}\nphoto = \"photos/gas.jpg\"");
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_pack(&pack.replace(note, &photo), "a.toml", &at(0)).unwrap();
    let said = engine.card("gas_left", &at(0)).unwrap().note;
    let lacks = "The pack names a photo that is not here: photos/gas.jpg";
    assert_eq!(said, format!("Behind the lower locker door.\n{lacks}"));
    assert!(engine.card("gas_right", &at(0)).unwrap().note.is_empty());
}

#[test]
fn a_card_says_where_it_is_what_is_normal_and_the_technicians_note() {
    let engine = demo("b");
    let page = engine.card("heater", &at(0)).unwrap();
    let normal = page.sections.iter().find(|one| one.id == "normal").unwrap();
    let flicker = "Lamps that flicker as it starts are normal";
    assert!(normal.lines.iter().any(|line| line.contains(flicker)), "{:?}", normal.lines);
    let stop = page.sections.iter().find(|one| one.id == "stop").unwrap();
    assert!(stop.lines[0].contains("minutes while it blows itself cool"), "{:?}", stop.lines);
    let page = demo("a").card("gas_left", &at(0)).unwrap();
    assert_eq!(page.note, "Behind the lower locker door.");
    assert_eq!(page.card.zone_title, "Outside, door side");
    let lead = demo("a").card("lead", &at(0)).unwrap().card;
    assert!(lead.zone_title.contains("Supply post"), "{}", lead.zone_title);
}
