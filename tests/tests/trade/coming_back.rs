//! Charged before the winter, and looked at before the road: batteries, lights, tyres, brakes.

use crate::bench::{Fact, believing, in_order, planned, refused, vehicle};
use stowfast_core::interlock::may_hold;

const LAID_UP: Fact = ("pitch.purpose", "laid_up");
const HOOKED_UP: [Fact; 6] = [
    ("post.supply", "live"),
    ("mains_lead.coil", "uncoiled"),
    ("mains_lead.vehicle_end", "in"),
    ("mains_lead.post_end", "in"),
    ("inlet_flap.leaf", "open"),
    ("main_switch.lever", "on"),
];
const MAINS: [(&str, &str); 4] =
    [("mains_lead", ""), ("main_switch", ""), ("inlet_flap", ""), ("charger", "")];
const BATTERY: [(&str, &str); 2] = [("leisure_battery", ""), ("battery_isolator", "")];

never!(
    an_isolated_battery_is_looked_over_before_it_is_connected_common_practice_no_source,
    [("leisure_battery", ""), ("battery_isolator", "")],
    [("leisure_battery.look_over", "due"), ("battery_isolator.lever", "on")],
    "leisure_battery.not_looked_over",
    Nuisance,
    "common practice, no source"
);
never!(
    no_drive_with_a_dark_lamp_common_practice_no_source,
    [("road_lights", "")],
    [("road_lights.lamps", "dark"), ("engine.wheels", "moving")],
    "road_lights.lamps_dark_on_the_road",
    Damage,
    "common practice, no source"
);
never!(
    no_drive_with_a_dark_indicator_common_practice_no_source,
    [("road_lights", "")],
    [("road_lights.indicators", "dark"), ("engine.wheels", "moving")],
    "road_lights.indicators_dark_on_the_road",
    Damage,
    "common practice, no source"
);
never!(
    no_drive_with_a_dark_brake_light_common_practice_no_source,
    [("road_lights", "")],
    [("road_lights.brake_lights", "dark"), ("engine.wheels", "moving")],
    "road_lights.brake_lights_dark_on_the_road",
    Damage,
    "common practice, no source"
);
never!(
    tyres_grow_old_whatever_their_tread_common_practice_no_source,
    [("tyres", "")],
    [("tyres.age", "past"), ("engine.wheels", "moving")],
    "tyres.past_their_age",
    Nuisance,
    "common practice, no source"
);
never!(
    brakes_that_stood_are_tried_before_the_road_common_practice_no_source,
    [("brakes", "")],
    [("brakes.trial", "due"), ("engine.wheels", "moving")],
    "brakes.untried_on_the_road",
    Damage,
    "common practice, no source"
);

/// On mains for long enough its charger tells it; then the mains goes off, and the isolator last.
#[test]
fn the_battery_is_charged_before_it_is_isolated_common_practice_no_source() {
    let vehicle = vehicle(&[MAINS.as_slice(), &BATTERY].concat());
    let ids = planned(&vehicle, "laid_up_winter", &[HOOKED_UP.as_slice(), &[LAID_UP]].concat());
    let order = ["leisure_battery.see_full", "main_switch.switch_off", "mains_lead.unplug"];
    in_order(&ids, &order);
    in_order(&ids, &["leisure_battery.see_full", "battery_isolator.switch_off"]);
    let young = ("main_switch.lever.full_h", "young");
    let of = vehicle.variables.iter().find(|one| one.id.ends_with(".full_h")).unwrap();
    let early = [HOOKED_UP.as_slice(), &[(of.id.as_str(), young.1)]].concat();
    let refused = refused(&vehicle, "leisure_battery.see_full", &early);
    assert_eq!(refused, std::slice::from_ref(&of.id), "its charger was on for too short");
}

/// Nothing is asked again where a reading at rest has told that it is full.
#[test]
fn a_reading_that_tells_full_needs_no_charger_common_practice_no_source() {
    let vehicle = vehicle(&[MAINS.as_slice(), &BATTERY].concat());
    let facts = [LAID_UP, ("post.supply", "none"), ("leisure_battery.charge", "full")];
    let ids = planned(&vehicle, "laid_up_winter", &facts);
    assert!(ids.iter().any(|id| id == "leisure_battery.know_full"), "{ids:?}");
    assert!(ids.iter().all(|id| id != "leisure_battery.see_full"), "{ids:?}");
    let less = [("leisure_battery.charge", "good")];
    assert_eq!(refused(&vehicle, "leisure_battery.know_full", &less), ["leisure_battery.charge"]);
}

#[test]
fn lithium_stands_at_its_storage_charge_common_practice_no_source() {
    let lithium = ("leisure_battery", "values = { chemistry = \"lifepo4\", stands = \"half\" }");
    let vehicle = vehicle(&[MAINS.as_slice(), &[lithium, BATTERY[1]]].concat());
    let ids = planned(&vehicle, "laid_up_winter", &[LAID_UP]);
    in_order(&ids, &["leisure_battery.see_half", "battery_isolator.switch_off"]);
    assert!(vehicle.action("leisure_battery.see_full").is_err());
}

/// Charging makes a battery fuller, if anything; and an isolated one is not drawn on.
#[test]
fn what_charges_never_makes_a_battery_emptier_common_practice_no_source() {
    let vehicle = vehicle(&[MAINS.as_slice(), &BATTERY].concat());
    let charge = vehicle.variable("leisure_battery.charge").unwrap();
    let mut charging = 0;
    for one in vehicle.settlings.iter().filter(|one| one.variable == charge) {
        if one.name.starts_with("charged") {
            let least = |settings: stowfast_core::vehicle::Settings| settings.places().min();
            assert!(least(one.from) < least(one.adds), "{}", one.name);
            charging += 1;
        } else {
            let isolated = believing(&vehicle, &[("battery_isolator.lever", "off")]);
            assert!(one.during.iter().any(|literal| !may_hold(&isolated, literal)), "{}", one.name);
        }
    }
    assert_eq!(charging, 8);
}

/// Looked at for this coming back, whatever was said before the winter.
#[test]
fn lights_tyres_nuts_and_batteries_are_looked_at_on_coming_back_common_practice_no_source() {
    let kinds =
        ["road_lights", "tyres", "road_wheels", "starter_battery", "extinguisher", "dc_fuse"];
    let fitted: Vec<_> = kinds.into_iter().map(|kind| (kind, "")).chain(BATTERY).collect();
    let vehicle = vehicle(&fitted);
    let facts = [("leisure_battery.look_over", "due"), ("battery_isolator.lever", "off")];
    let ids = planned(&vehicle, "back_in_service", &facts);
    for look in [
        "road_lights.lamps.look",
        "road_lights.indicators.look",
        "road_lights.brake_lights.look",
        "tyres.age.look",
        "road_wheels.nuts.look",
        "starter_battery.charge.look",
        "extinguisher.state.look",
    ] {
        assert!(ids.iter().any(|id| id == look), "{look}: {ids:?}");
    }
    in_order(&ids, &["leisure_battery.look_it_over", "battery_isolator.switch_on"]);
}

/// The first braking comes before the road and after everything that must be in for it.
#[test]
fn the_first_braking_comes_once_all_is_in_common_practice_no_source() {
    let vehicle =
        vehicle(&[("brakes", ""), ("chocks", ""), ("entrance_step", ""), ("steadies", "")]);
    let facts = [
        ("brakes.trial", "due"),
        ("chocks.wedges", "set"),
        ("entrance_step.step", "out"),
        ("steadies.legs", "down"),
    ];
    let ids = planned(&vehicle, "ready_to_drive", &facts);
    for first in ["chocks.stow", "entrance_step.in", "steadies.wind_up"] {
        in_order(&ids, &[first, "brakes.try", "walk_round.walk"]);
    }
    for (thing, left) in &facts[1..] {
        let refused = refused(&vehicle, "brakes.try", &[(thing, left)]);
        assert_eq!(refused, [(*thing).to_owned()], "{thing}");
    }
}

says!(a_battery_that_never_fills_is_named_common_practice_no_source,
    "leisure_battery.caution.see_full": ["Never full: have it tested"],
    "leisure_battery.caution.look_it_over": ["Swollen", "Have it tested"]);
says!(brakes_that_hold_fast_are_a_workshops_common_practice_no_source,
    "brakes.caution.try": ["Feel the handbrake let go", "do not force it", "pulling to one side", "nobody near"]);
says!(old_tyres_are_a_tyre_fitters_common_practice_no_source,
    "tyres.sign.age": ["after DOT", "ask a tyre fitter"]);
