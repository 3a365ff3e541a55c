//! The search for a cause in the demo vehicles. Facts of the trade: common practice, no source,
//! unless one is named.

use super::super::{FaultPage, FaultStage, StepKind};
use super::{Engine, at};
use crate::error::Error;

pub(super) fn demo(id: &str) -> Engine {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo(id, &at(0)).unwrap();
    engine
}

/// A demo vehicle of which nothing was said yet.
pub(super) fn unsaid(id: &str) -> Engine {
    let path = format!("{id}/pack.toml");
    let files = crate::catalogue::demo_files().iter();
    let (_, pack) = files.clone().find(|(file, _)| *file == path).unwrap();
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_pack(pack, &path, &at(0)).unwrap();
    engine
}

pub(super) fn told(engine: &mut Engine, facts: &[(&str, &str)]) {
    for (variable, setting) in facts {
        engine.report(variable, setting, &at(1)).unwrap();
    }
}

/// Where a search stands after some answers.
pub(super) fn after(engine: &mut Engine, fault: &str, said: &[(&str, &str)]) -> FaultPage {
    for (asked, answer) in said {
        engine.answer_fault(fault, asked, answer, &at(2)).unwrap();
    }
    engine.fault(fault, &at(2)).unwrap()
}

fn asks(page: &FaultPage) -> &str {
    page.question.as_ref().map_or("", |row| &row.id)
}

pub(super) fn finds(page: &FaultPage) -> &str {
    page.found.as_ref().map_or("", |row| &row.id)
}

#[test]
fn with_the_mains_unhooked_nobody_is_asked_about_the_breaker() {
    let mut engine = demo("a");
    told(&mut engine, &[("lead.vehicle_end", "out"), ("lead.post_end", "out")]);
    let page = after(&mut engine, "no_mains_inside", &[]);
    assert_eq!((page.fault.stage, asks(&page)), (FaultStage::Found, ""));
    assert_eq!(finds(&page), "cause.not_in");
    assert_eq!(page.found.unwrap().routine.unwrap().id, "pitched_hookup");
    assert_eq!(
        page.settled,
        ["Is the lead plugged in at both ends? One end is out or half out. (1 min ago)"]
    );
}

#[test]
fn the_own_trip_and_rcd_come_before_the_post() {
    let mut engine = unsaid("a");
    let first = after(&mut engine, "no_mains_inside", &[]);
    assert_eq!(asks(&first), "ends");
    let own = after(&mut engine, "no_mains_inside", &[("ends", "in")]);
    assert_eq!(asks(&own), "own");
    assert!(own.question.unwrap().text.contains("your own main switch, RCD and breakers"));
    let post = after(&mut engine, "no_mains_inside", &[("own", "up")]);
    assert!(["post", "lead"].contains(&asks(&post)), "{:?}", post.question);
    // Nobody may stand before a post and be asked first, whatever the walk saves.
    for id in ["a", "b", "c"] {
        let engine = unsaid(id);
        let loaded = engine.at(&at(0)).unwrap();
        let fault = loaded.vehicle.faults.iter().find(|one| one.id == "no_mains_inside").unwrap();
        let place = |id: &str| fault.questions.iter().position(|one| one.id == id).unwrap();
        for post in ["post", "others"] {
            assert!(fault.questions[place(post)].after.contains(&place("own")), "{id}");
        }
    }
}

#[test]
fn a_tripped_rcd_that_trips_again_is_for_an_electrician() {
    let page = after(&mut unsaid("a"), "no_mains_inside", &[("ends", "in"), ("own", "rcd")]);
    assert_eq!(finds(&page), "cause.own_rcd");
    assert!(page.found.unwrap().remedy[2].contains("leave it down and ask an electrician"));
}

#[test]
fn a_boiler_lit_on_gas_under_its_cover_locks_out() {
    let mut engine = demo("a");
    told(&mut engine, &[("boiler.heat", "gas"), ("boiler.cover", "on")]);
    let page = after(&mut engine, "boiler_locks_out", &[]);
    assert_eq!(finds(&page), "cause.cover_on");
    let found = page.found.unwrap();
    assert!(found.text.contains("Lit on gas under its cover"), "{}", found.text);
    let steps: Vec<_> = found.steps.iter().map(|step| step.id.as_str()).collect();
    assert_eq!(steps, ["boiler.switch_off", "boiler.cover_off"]);
    // On mains the cover is not asked about.
    told(&mut engine, &[("boiler.heat", "electric")]);
    let page = after(&mut engine, "boiler_locks_out", &[]);
    assert!(page.likely.iter().all(|row| row.id != "cover_on" && row.id != "gas_shut"));
}

#[test]
fn an_oven_without_a_spark_needs_the_lighting_circuit_on() {
    let fault = "cooker_does_not_light.oven";
    let page = after(&mut unsaid("c"), fault, &[("what", "no_spark")]);
    assert_eq!(asks(&page), "lights");
    let page = after(&mut unsaid("c"), fault, &[("what", "no_spark"), ("lights", "off")]);
    assert_eq!(finds(&page), "cause.no_12v");
    assert!(page.found.unwrap().text.contains("it is on the lighting circuit"));
    let hob = after(&mut unsaid("c"), "cooker_does_not_light.hob", &[("what", "no_spark")]);
    assert!(hob.likely.iter().all(|row| row.id != "no_12v"), "some hobs have no igniter");
}

#[test]
fn a_knob_is_held_until_the_flame_sensor_is_warm() {
    let fault = "cooker_does_not_light.hob";
    let page = after(&mut unsaid("c"), fault, &[("what", "goes_out")]);
    assert_eq!(asks(&page), "hold");
    let page = after(&mut unsaid("c"), fault, &[("what", "goes_out"), ("hold", "stays")]);
    assert_eq!(finds(&page), "cause.knob");
    let found = page.found.unwrap();
    assert!(found.text.contains("flame sensor must get warm"), "{}", found.text);
    assert!(found.remedy[0].contains("hold it for fifteen seconds"));
}

#[test]
fn lamps_that_flicker_as_the_diesel_heater_lights_are_normal() {
    let page = after(&mut unsaid("b"), "lights_flicker", &[("when", "heater")]);
    assert_eq!((page.fault.stage, finds(&page)), (FaultStage::Normal, "cause.heater"));
    assert!(page.found.unwrap().remedy[0].contains("that is normal"));
    let page = after(&mut unsaid("a"), "lights_flicker", &[]);
    assert!(page.likely.iter().all(|row| row.id != "heater"), "none is fitted");
}

#[test]
fn a_pump_that_runs_on_means_no_water_an_open_tap_or_an_open_boiler_drain() {
    let fault = "pump_never_stops";
    let page = after(&mut unsaid("a"), fault, &[]);
    let likely: Vec<_> = page.likely.iter().take(3).map(|row| row.id.as_str()).collect();
    assert_eq!(likely, ["no_water", "tap_open", "drain_open"]);
    for (asked, answer, cause) in [
        ("gauge", "empty", "cause.no_water"),
        ("taps", "open", "cause.tap_open"),
        ("drain", "open", "cause.drain_open"),
    ] {
        let page = after(&mut unsaid("a"), fault, &[(asked, answer)]);
        assert_eq!((finds(&page), page.fault.stage), (cause, FaultStage::Found));
    }
}

#[test]
fn an_answer_is_a_fact_too_and_both_are_taken_back_together() {
    let mut engine = unsaid("a");
    let fault = "pump_never_stops";
    let before = after(&mut engine, fault, &[]);
    let open = |engine: &Engine| {
        let things = engine.things(&at(3)).unwrap();
        things.into_iter().find(|row| row.variable == "boiler.drain").unwrap().believed
    };
    assert_eq!(open(&engine), ["shut", "open"]);
    let page = after(&mut engine, fault, &[("drain", "open")]);
    assert_eq!(open(&engine), ["open"]);
    let steps: Vec<_> = page.found.unwrap().steps.into_iter().map(|step| step.id).collect();
    assert_eq!(steps.last().map(String::as_str), Some("boiler.shut_drain"));
    assert!(
        engine.log(1).unwrap()[0].text.contains("Is the drain of the boiler open? It is open.")
    );
    engine.undo_fault(fault, &at(3)).unwrap();
    assert_eq!(open(&engine), ["shut", "open"]);
    assert_eq!(engine.fault(fault, &at(2)).unwrap(), before);
    let none = engine.undo_fault(fault, &at(3)).unwrap_err();
    assert!(matches!(none, Error::Conflict { .. }), "{none}");
}

#[test]
fn what_cannot_be_looked_at_is_left_out_and_the_rest_goes_on() {
    let mut engine = unsaid("a");
    let page = after(&mut engine, "pump_never_stops", &[("taps", "cannot")]);
    assert_ne!(asks(&page), "taps");
    assert!(page.likely.iter().any(|row| row.id == "tap_open"), "it may still be that");
    assert!(page.tried[0].text.contains("I cannot look at that."));
}

#[test]
fn a_cause_that_did_not_help_is_ruled_out_and_the_search_goes_on() {
    let mut engine = unsaid("a");
    let fault = "pump_never_stops";
    let page = after(&mut engine, fault, &[("taps", "open"), ("cause.tap_open", "remains")]);
    assert_eq!(page.fault.stage, FaultStage::Asking);
    assert!(page.likely.iter().all(|row| row.id != "tap_open"));
    let page = after(&mut engine, fault, &[("gauge", "empty"), ("cause.no_water", "mended")]);
    assert_eq!((page.fault.stage, page.found), (FaultStage::Mended, None));
    engine.restart_fault(fault, &at(3)).unwrap();
    let page = engine.fault(fault, &at(3)).unwrap();
    assert_eq!(
        (page.fault.said_count, page.fault.stage),
        (0, FaultStage::Found),
        "the tank is known empty"
    );
}

#[test]
fn what_was_believed_wrongly_is_asked_anew() {
    let mut engine = unsaid("a");
    told(&mut engine, &[("fresh.level", "more"), ("boiler.drain", "shut")]);
    let fault = "pump_never_stops";
    let page = after(&mut engine, fault, &[]);
    assert_eq!(page.settled.len(), 2, "{:?}", page.settled);
    let mut page = page;
    for _ in 0..10 {
        let Some(row) = page.question.clone() else { break };
        if ["gauge", "drain"].contains(&row.id.as_str()) {
            break;
        }
        let answer = row.answers.get(row.answers.len() - 2).unwrap().id.clone();
        page = after(&mut engine, fault, &[(&row.id, &answer)]);
    }
    assert!(["gauge", "drain"].contains(&asks(&page)), "{:?}", page.found);
    let [row] = page.contrary.as_slice() else { panic!("{:?}", page.contrary) };
    assert!(row.text.contains("do not fit together"), "{}", row.text);
    assert!(row.look_again.len() == 2 && page.settled.is_empty(), "{row:?}");
    let page = after(&mut engine, fault, &[("drain", "open")]);
    assert_eq!(finds(&page), "cause.drain_open");
}

#[test]
fn where_nothing_fits_a_workshop_gets_an_account_of_all_that_was_tried() {
    let mut engine = unsaid("a");
    let fault = "pump_does_not_run";
    let mut page = after(&mut engine, fault, &[]);
    while let Some(row) = page.question.clone() {
        // "No, that is as it should be" is the last but "cannot"; of the lamps too.
        let answer = row.answers.get(row.answers.len() - 2).unwrap().id.clone();
        page = after(&mut engine, fault, &[(&row.id, &answer)]);
    }
    assert_eq!((page.fault.stage, finds(&page)), (FaultStage::Helper, "cause.other"));
    assert_eq!(page.found.unwrap().helper_text.as_deref(), Some("Ask a workshop."));
    assert!(page.account.starts_with("Water pump does not run (Wren"), "{}", page.account);
    assert!(page.tried.len() >= 5);
    for row in &page.tried {
        assert!(page.account.contains(&format!("- {}", row.text)), "{}", page.account);
    }
}

#[test]
fn a_search_goes_on_in_another_process() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("trip.db");
    let mut engine = Engine::open(&path, "en", &at(0)).unwrap();
    engine.add_demo("c", &at(0)).unwrap();
    let page = after(&mut engine, "boiler_locks_out", &[("battery", "good")]);
    // As a kill leaves it: nothing is closed.
    std::mem::forget(engine);
    let engine = Engine::open(&path, "en", &at(3)).unwrap();
    assert_eq!(engine.fault("boiler_locks_out", &at(2)).unwrap(), page);
    assert_eq!(page.fault.said_count, 1);
}

#[test]
fn what_is_not_there_is_said_with_what_was_expected() {
    let mut engine = demo("a");
    let kind = |error: Error| match error {
        Error::NotFound { kind, .. } => kind.to_owned(),
        Error::InvalidInput { field, expected } => format!("{field}: {expected}"),
        other => panic!("{other}"),
    };
    let mut said = |fault: &str, asked: &str, answer: &str| {
        kind(engine.answer_fault(fault, asked, answer, &at(1)).unwrap_err())
    };
    assert_eq!(said("pump_sings", "taps", "open"), "fault");
    assert_eq!(said("pump_never_stops", "tops", "open"), "check");
    assert_eq!(said("pump_never_stops", "taps", "ajar"), "Is any tap open: open or shut or cannot");
    assert_eq!(said("pump_never_stops", "cause.rust", "mended"), "cause");
    assert_eq!(said("pump_never_stops", "cause.leak", "yes"), "A pipe leaks: mended or remains");
}

/// A diesel van hears nothing of gas, and what is fitted twice is told apart.
#[test]
fn causes_whose_fittings_are_not_there_fall_away() {
    let engine = unsaid("b");
    let rows = engine.faults(&at(0)).unwrap();
    assert!(rows.iter().all(|row| !row.id.starts_with("boiler") && !row.id.starts_with("cooker")));
    let page = engine.fault("pump_never_stops", &at(0)).unwrap();
    assert!(page.likely.iter().all(|row| row.id != "drain_open" && row.id != "valve_open"));
    let rows = unsaid("c").faults(&at(0)).unwrap();
    let roof = rows.iter().filter(|row| row.id.starts_with("roof_light_does_not_shut."));
    assert_eq!(roof.count(), 3);
}

/// Every page of every fault of every vehicle has its words, whole.
#[test]
fn no_page_shows_a_key_or_an_empty_slot() {
    for id in ["a", "b", "c"] {
        let engine = unsaid(id);
        for row in engine.faults(&at(0)).unwrap() {
            let page = engine.fault(&row.id, &at(0)).unwrap();
            let said = serde_json::to_string(&page).unwrap();
            assert!(
                !said.contains("fault.") && !said.contains("say.") && !said.contains("{it}"),
                "{said}"
            );
            assert!(page.question.is_some_and(|row| !row.how.is_empty() && row.answers.len() > 2));
        }
    }
}

/// What was answered before it was mended says nothing of the next time.
#[test]
fn what_is_said_after_it_was_mended_begins_anew() {
    let mut engine = demo("a");
    let page = after(&mut engine, "fridge_does_not_cool", &[("level", "slope")]);
    assert_eq!(finds(&page), "cause.sloping");
    let page = after(&mut engine, "fridge_does_not_cool", &[("cause.sloping", "mended")]);
    assert_eq!(page.fault.stage, FaultStage::Mended);
    let page = after(&mut engine, "fridge_does_not_cool", &[("weigh", "some")]);
    assert_ne!(finds(&page), "cause.sloping");
    assert_eq!(page.tried.len(), 1, "only what was said since");
}

/// Of two answers that only one cause each explains, the later one counts.
#[test]
fn of_two_answers_that_contradict_the_later_one_counts() {
    for (first, then, cause) in [
        (("weigh", "empty"), ("door", "gap"), "cause.door"),
        (("door", "gap"), ("weigh", "empty"), "cause.gas_empty"),
    ] {
        let mut engine = demo("a");
        let page = after(&mut engine, "fridge_does_not_cool", &[first, then]);
        assert_eq!(finds(&page), cause);
    }
}

#[test]
fn anything_else_cannot_be_ruled_out() {
    let mut engine = demo("a");
    let said = engine.answer_fault("fridge_does_not_cool", "cause.other", "remains", &at(2));
    assert!(matches!(said, Err(Error::InvalidInput { expected, .. }) if expected == "mended"));
}

/// Whoever looked at something stands there, until a step is made elsewhere.
#[test]
fn the_walk_to_the_next_question_starts_where_one_stands() {
    let mut engine = demo("a");
    let walk = |engine: &Engine| {
        let page = engine.fault("fridge_does_not_cool", &at(4)).unwrap();
        page.question.map(|row| (row.zone_id, row.walk_s))
    };
    engine.open_run("ready_to_drive", &at(1)).unwrap();
    after(&mut engine, "fridge_does_not_cool", &[("weigh", "some")]);
    let (zone, from_outside) = walk(&engine).unwrap();
    assert!(from_outside > 0);
    let steps = engine.steps().unwrap();
    let there = steps.iter().find(|row| row.zone_id == zone && row.kind == StepKind::Look).unwrap();
    engine.tick(&there.id, &at(3)).unwrap();
    assert_eq!(walk(&engine).unwrap(), (zone, 0));
}

/// The page of the red lamp says to switch the boiler off: that is not the cause then.
#[test]
fn a_red_lamp_that_was_told_comes_before_that_it_is_off() {
    let mut engine = demo("a");
    told(&mut engine, &[("boiler.lamp", "red"), ("boiler.heat", "off")]);
    let page = after(&mut engine, "no_hot_water", &[]);
    assert_eq!((page.fault.stage, finds(&page)), (FaultStage::Found, "cause.locked_out"));
}

#[test]
fn what_is_answered_again_is_listed_once_and_the_last_counts() {
    let mut engine = demo("a");
    let page = after(&mut engine, "fridge_does_not_cool", &[("weigh", "empty"), ("weigh", "some")]);
    assert_eq!(page.tried.len(), 1);
    assert_ne!(finds(&page), "cause.gas_empty");
}
