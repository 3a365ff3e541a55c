//! Searches in which something does not fit: answers that contradict each other, a vehicle that was
//! said to be otherwise, a lamp that was told, an alarm that sounds.

use super::fault::{after, demo, finds, told, unsaid};
use super::{Engine, at};
use crate::engine::FaultStage;

/// The percentages turn over: the page says that two answers contradict each other, and which.
#[test]
fn answers_that_contradict_are_both_named_to_be_looked_at_again() {
    let mut engine = demo("a");
    let fault = "fridge_does_not_cool";
    let page = after(&mut engine, fault, &[("set", "gas"), ("weigh", "empty")]);
    assert_eq!(page.contrary, []);
    let page = after(&mut engine, fault, &[("door", "gap")]);
    let [row] = page.contrary.as_slice() else { panic!("{:?}", page.contrary) };
    assert!(row.text.contains("contradict each other"), "{}", row.text);
    let [first, second] = row.look_again.as_slice() else { panic!("{row:?}") };
    assert!(
        first.contains("Is there gas left") && second.contains("Does its door shut"),
        "{row:?}"
    );
    // Looked at again, and it was otherwise: nothing is odd any more.
    let page = after(&mut engine, fault, &[("weigh", "some")]);
    assert_eq!((page.contrary.len(), finds(&page)), (0, "cause.door"));
}

#[test]
fn a_cause_that_was_mended_in_vain_is_no_contradiction() {
    let said = [("taps", "open"), ("cause.tap_open", "remains"), ("gauge", "empty")];
    let page = after(&mut unsaid("a"), "pump_never_stops", &said);
    // The taps were open, and now the gauge shows nothing left: two single causes after all.
    assert_eq!(page.contrary.len(), 1);
    let page = after(&mut unsaid("a"), "pump_never_stops", &said[..2]);
    assert_eq!(page.contrary, []);
}

/// Whoever sees that it slopes is right, whatever was said of the ground on arriving.
#[test]
fn what_was_seen_outweighs_what_was_said_of_the_vehicle_before() {
    let mut engine = demo("a");
    told(&mut engine, &[("pitch.ground", "level")]);
    let page = after(&mut engine, "fridge_does_not_cool", &[]);
    assert!(page.likely.iter().all(|row| row.id != "sloping"));
    let page = after(&mut engine, "fridge_does_not_cool", &[("level", "slope")]);
    assert_eq!(finds(&page), "cause.sloping");
}

/// Said while the lamp is red, though it was switched off since.
#[test]
fn lighting_a_boiler_whose_red_lamp_was_told_is_not_said_to_be_free_of_objections() {
    let mut engine = demo("a");
    let free = engine.may("boiler.heat_gas", &at(0)).unwrap();
    told(&mut engine, &[("boiler.lamp", "red"), ("boiler.heat", "off")]);
    let page = engine.may("boiler.heat_gas", &at(2)).unwrap();
    assert!(free.step.cautions.iter().all(|line| !line.contains("locked out")));
    assert!(page.step.cautions[0].contains("locked out"), "{:?}", page.step.cautions);
    assert_eq!((page.refused, page.answer.contains("mind")), (false, true), "{}", page.answer);
    let off = engine.may("boiler.switch_off", &at(2)).unwrap();
    assert!(off.answer.contains("so already"), "{}", off.answer);
}

#[test]
fn what_the_fitting_shows_red_stands_on_the_page_of_its_search() {
    let mut engine = demo("a");
    let quiet = after(&mut engine, "no_hot_water", &[]).shows_red;
    assert!(quiet.iter().any(|row| row.id == "boiler.locked_out"), "{quiet:?}");
    assert!(quiet.iter().all(|row| !row.shows), "{quiet:?}");
    told(&mut engine, &[("boiler.lamp", "red")]);
    let page = after(&mut engine, "no_hot_water", &[]);
    let first = &page.shows_red[0];
    assert_eq!((first.id.as_str(), first.shows), ("boiler.locked_out", true));
    assert_eq!(page.shows_red.len(), quiet.len(), "one list, with a mark");
    assert!(engine.alert(&first.id, &at(2)).is_ok());
}

#[test]
fn while_an_alarm_sounds_nothing_is_asked_and_the_search_waits_where_it_was() {
    let mut engine = demo("c");
    let fault = "pump_never_stops";
    let before = after(&mut engine, fault, &[("taps", "shut")]);
    engine.report("co_alarm.sound", "sounding", &at(2)).unwrap();
    let page = engine.fault(fault, &at(2)).unwrap();
    assert!(page.emergency[0].text.contains("Everyone out"), "{:?}", page.emergency);
    assert_eq!((page.question.clone(), page.found.clone()), (None, None));
    assert!(!page.headline.contains("Look at this next"), "{}", page.headline);
    engine.report("co_alarm.sound", "stopped", &at(2)).unwrap();
    assert!(!engine.fault(fault, &at(2)).unwrap().emergency.is_empty(), "not over yet");
    engine.report("co_alarm.sound", "silent", &at(2)).unwrap();
    let calm = engine.fault(fault, &at(2)).unwrap();
    assert_eq!((calm.question, calm.tried), (before.question, before.tried));
}

#[test]
fn a_compressor_fridge_that_blinks_at_a_low_battery_is_charged_first() {
    let mut engine = unsaid("b");
    told(&mut engine, &[("fridge.lamp", "red"), ("fridge.power", "on")]);
    let fault = "compressor_fridge_does_not_start";
    let page = after(&mut engine, fault, &[("battery", "low")]);
    assert_eq!((page.fault.stage, finds(&page)), (FaultStage::Found, "cause.low_volts"));
    let page = after(&mut unsaid("b"), fault, &[("set", "on"), ("inside", "cold")]);
    assert_eq!((page.fault.stage, finds(&page)), (FaultStage::Normal, "cause.cold"));
    // Vehicles with an absorber are asked nothing of a compressor.
    let rows = demo("a").faults(&at(0)).unwrap();
    assert!(rows.iter().all(|row| !row.id.starts_with("compressor")));
}

#[test]
fn a_warm_compressor_fridge_that_hums_without_end_and_makes_no_cold_is_for_a_workshop() {
    let fault = "compressor_fridge_is_warm";
    let said = [("runs", "always"), ("since", "longer"), ("plate", "warm"), ("battery", "good")];
    let page = after(&mut unsaid("b"), fault, &said);
    assert_eq!(page.likely[0].id, "circuit");
    assert_eq!(page.likely[0].chance_text, "likely");
}

/// What is known is worked out once for all rows: each says the same as its page.
#[test]
fn the_list_says_how_far_each_search_has_come() {
    let mut engine: Engine = demo("c");
    after(&mut engine, "pump_never_stops", &[("taps", "open")]);
    let rows = engine.faults(&at(2)).unwrap();
    let begun: Vec<_> = rows.iter().filter(|row| row.said_count > 0).collect();
    assert_eq!((begun.len(), begun[0].id.as_str()), (1, "pump_never_stops"));
    for row in &rows {
        assert_eq!(engine.fault(&row.id, &at(2)).unwrap().fault, *row);
    }
}
