//! What each lamp and sound of the fittings means. Facts of the trade: common practice, no source.

use super::super::{MeaningRow, Seen};
use super::{Engine, at};
use crate::alert::Shown;
use crate::catalogue::Catalogue;

fn demo(id: &str) -> Engine {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo(id, &at(0)).unwrap();
    engine
}

/// What an alert means after some reports, and whether it then shows.
fn shown(engine: &mut Engine, alert: &str, told: &[(&str, &str)]) -> (MeaningRow, Shown) {
    for (variable, setting) in told {
        engine.report(variable, setting, &at(1)).unwrap();
    }
    let mut page = engine.alert(alert, &at(2)).unwrap();
    (page.meanings.remove(0), page.alert.shown)
}

/// The alert of a kind, in the first demo vehicle that has such a fitting.
fn of(kind: &str, alert: &str) -> (Engine, String) {
    for id in ["a", "b", "c"] {
        let engine = demo(id);
        let words = format!("alert.{alert}");
        let found = engine.at(&at(0)).unwrap().vehicle.alerts.iter().find_map(|one| {
            let fitting = engine.at(&at(0)).ok()?.vehicle.fittings.get(one.fitting)?.kind.clone();
            (fitting == kind && one.words == words).then(|| one.id.clone())
        });
        if let Some(found) = found {
            return (engine, found);
        }
    }
    panic!("no vehicle has {kind}.{alert}")
}

/// All lines of a meaning.
fn said(meaning: &MeaningRow) -> String {
    let lines = [&meaning.do_now[..], &meaning.stop_now[..]].concat().join(" ");
    format!("{} {lines} {}", meaning.text, meaning.trip)
}

#[test]
fn an_alarm_of_life_comes_before_all_else_and_only_its_own_page_ends_it() {
    for (kind, first) in [("co_alarm", "Everyone out now"), ("smoke_alarm", "Everyone out now")] {
        let (mut engine, alert) = of(kind, "sounds");
        let fitting = alert.split('.').next().unwrap().to_owned();
        for row in engine.alerts(&at(0)).unwrap() {
            let Some(report) = row.report else { continue };
            engine.report(&report.variable, &report.setting, &at(1)).unwrap();
        }
        let rows = engine.alerts(&at(2)).unwrap();
        let life = rows.iter().take_while(|row| row.id.ends_with(".sounds"));
        let all = rows.iter().filter(|row| row.id.ends_with(".sounds"));
        assert_eq!(life.count(), all.count());
        let page = engine.alert(&alert, &at(2)).unwrap();
        assert_eq!((page.alert.shown, &page.cleared), (Shown::Yes, &None));
        assert!(page.meanings[0].do_now[0].starts_with(first));
        let emergency = engine.now_page(&at(2)).unwrap().emergency;
        assert!(emergency.iter().any(|row| row.variable == format!("{fitting}.sound")));
        engine.report(&format!("{fitting}.sound"), "stopped", &at(3)).unwrap();
        let page = engine.alert(&alert, &at(3)).unwrap();
        assert_eq!((page.alert.shown, &page.cleared), (Shown::Yes, &None), "not yet over");
        assert_eq!(page.meanings[0].id, "sounded");
        engine.report(&format!("{fitting}.sound"), "silent", &at(4)).unwrap();
        assert_eq!(engine.alert(&alert, &at(4)).unwrap().alert.shown, Shown::No);
    }
}

#[test]
fn a_chirp_is_no_alarm_and_raises_no_emergency() {
    let (mut engine, alert) = of("co_alarm", "chirps");
    let report = engine.alert(&alert, &at(0)).unwrap().alert.report.unwrap();
    let (found, shows) = shown(&mut engine, &alert, &[(&report.variable, "heard")]);
    assert_eq!(shows, Shown::Yes);
    assert!(said(&found).contains("battery"));
    assert!(engine.now_page(&at(2)).unwrap().emergency.is_empty());
}

#[test]
fn a_red_oil_lamp_means_stop_engine_off_and_never_drive_on() {
    let told = [("engine.running", "on"), ("engine.oil", "red")];
    let (found, _) = shown(&mut demo("a"), "engine.oil", &told);
    assert_eq!((found.id.as_str(), found.normal), ("driving", false));
    assert!(found.do_now[0].contains("Stop where it is safe, at once. Engine off"));
    assert!(said(&found).contains("Never drive on"));
    let (found, shows) = shown(&mut demo("a"), "engine.oil", &[("engine.oil", "red")]);
    assert_eq!((found.id.as_str(), found.normal, shows), ("stands", false, Shown::Yes));
}

#[test]
fn an_engine_too_hot_stops_and_its_hot_cap_stays_shut() {
    let (found, _) = shown(&mut demo("a"), "engine.coolant", &[("engine.running", "on")]);
    assert!(found.do_now[0].contains("Stop where it is safe. Engine off"));
    assert!(said(&found).contains("Never open a hot cap"));
}

#[test]
fn a_red_brake_lamp_means_do_not_drive_on_unless_it_is_the_handbrake() {
    let told = [("brakes.lamp", "red"), ("handbrake.lever", "off")];
    let (found, shows) = shown(&mut demo("a"), "brakes.warning", &told);
    assert_eq!((found.id.as_str(), shows), ("fault", Shown::Yes));
    assert!(said(&found).contains("Do not drive on"));
    let (found, _) = shown(&mut demo("a"), "brakes.warning", &[("handbrake.lever", "on")]);
    assert_eq!((found.id.as_str(), found.normal), ("handbrake_on", false));
    assert!(said(&found).contains("Still lit: handbrake on again, and do not drive"));
}

#[test]
fn the_diesel_heater_stops_by_itself_above_its_floor() {
    let (mut engine, alert) = of("heater_diesel", "fault");
    let fitting = alert.split('.').next().unwrap();
    let told = [(format!("{fitting}.fuel"), "below"), (format!("{fitting}.lamp"), "red")];
    let told = told.each_ref().map(|(variable, setting)| (variable.as_str(), *setting));
    let (found, shows) = shown(&mut engine, &alert, &told);
    assert_eq!((found.id.as_str(), shows), ("below_floor", Shown::Yes));
    assert!(found.text.contains("stops by itself at about"), "{}", found.text);
    assert_eq!(found.routine.unwrap().id, "ready_to_refuel");
}

#[test]
fn urea_is_filled_in_before_zero_for_once_off_the_engine_may_not_start() {
    let (mut engine, alert) = of("urea_tank", "countdown");
    let fitting = alert.split('.').next().unwrap();
    let countdown = format!("{fitting}.countdown");
    let (found, shows) = shown(&mut engine, &alert, &[(&countdown, "running")]);
    assert_eq!((found.id.as_str(), shows), ("before_zero", Shown::Yes));
    assert!(said(&found).contains("does not start again once it is off"));
    assert!(said(&found).contains("Do not let it reach zero"));
    let told = [(countdown.as_str(), "at_zero"), ("engine.running", "on")];
    let (found, shows) = shown(&mut engine, &alert, &told);
    assert_eq!((found.id.as_str(), shows), ("at_zero_on", Shown::Yes));
    assert!(found.do_now[0].contains("Leave the engine on"), "{:?}", found.do_now);
}

#[test]
fn a_frost_valve_that_opened_shuts_only_once_it_is_warm() {
    let (mut engine, alert) = of("frost_valve", "opened");
    let fitting = alert.split('.').next().unwrap();
    let (valve, warmth) = (format!("{fitting}.valve"), format!("{fitting}.warmth"));
    let told = [(valve.as_str(), "open"), (warmth.as_str(), "cold")];
    let (found, shows) = shown(&mut engine, &alert, &told);
    assert_eq!((found.id.as_str(), shows), ("still_cold", Shown::Yes));
    assert!(said(&found).contains("Do not tie or wedge it shut"));
    assert!(found.steps.iter().all(|step| !step.id.ends_with("shut_valve")));
}

#[test]
fn a_blown_fuse_is_never_replaced_by_a_bigger_one() {
    let (mut engine, alert) = of("dc_fuse", "blown");
    let (found, _) = shown(&mut engine, &alert, &[]);
    assert!(said(&found).contains("Never a bigger fuse"));
    assert!(said(&found).contains("same amps"));
}

#[test]
fn a_full_battery_takes_nothing_from_the_sun_and_nothing_is_wrong() {
    let (mut engine, alert) = of("solar_regulator", "none");
    let (found, _) = shown(&mut engine, &alert, &[("battery.charge", "full")]);
    assert_eq!((found.id.as_str(), found.normal), ("full", true));
}

#[test]
fn a_step_that_is_out_is_a_warning_only_with_the_engine_on() {
    let (mut engine, alert) = of("entrance_step", "open");
    let step = format!("{}.step", alert.split('.').next().unwrap());
    let (found, _) = shown(&mut engine, &alert, &[(&step, "out"), ("engine.running", "off")]);
    assert!(found.normal);
    let (found, shows) = shown(&mut engine, &alert, &[("engine.running", "on")]);
    assert_eq!((found.id.as_str(), found.normal, shows), ("engine_on", false, Shown::Yes));
}

/// What the catalogue says that a fitting shows by itself: the check of the catalogue refuses one
/// without an alert. Each reason that a rule gives belongs to a fitting, and that has a card.
#[test]
fn every_indication_has_its_alert_and_every_reason_its_card() {
    let catalogue = Catalogue::built_in().unwrap();
    let variables = catalogue.kinds.values().flat_map(|kind| &kind.variables);
    assert!(variables.filter(|variable| !variable.shows.is_empty()).count() > 40);
    for kind in catalogue.kinds.values() {
        for variable in kind.variables.iter().filter(|one| one.given && one.id == "lamp") {
            assert!(!variable.shows.is_empty(), "{} has a lamp that shows nothing", kind.id);
        }
    }
    for id in ["a", "b", "c"] {
        let engine = demo(id);
        let cards = engine.cards().unwrap();
        let vehicle = &engine.at(&at(0)).unwrap().vehicle;
        for clause in &vehicle.clauses {
            let fitting = vehicle.fittings.get(clause.fitting).unwrap();
            assert!(cards.iter().any(|card| card.id == fitting.id), "{}", fitting.id);
        }
    }
}

/// What a variable is called within its fitting.
fn own(variable: &str) -> Option<&str> {
    variable.rsplit_once('.').map(|(_, own)| own)
}

#[test]
fn what_sounds_stands_with_the_alarms_and_nothing_else_does() {
    for vehicle in ["a", "b", "c"] {
        for row in demo(vehicle).alerts(&at(0)).unwrap() {
            let told = row.report.map_or_else(String::new, |report| report.variable);
            let sounds = ["sound", "chirp"].iter().any(|heard| Some(*heard) == own(&told));
            assert_eq!(row.seen == Seen::Heard, sounds, "{vehicle}: {}", row.id);
        }
    }
}
