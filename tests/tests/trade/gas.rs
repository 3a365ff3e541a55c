//! Gas on the road, cylinders, filling.

use crate::bench::{pack_of, refused, vehicle};
use stowfast_core::catalogue::Catalogue;
use stowfast_core::pack;

const CYLINDER: (&str, &str) = ("gas_cylinder", "");
const MOVING: (&str, &str) = ("engine.wheels", "moving");
const ALLOWED: &str =
    "values = { road_protection = \"crash_sensor\", open_on_the_road_allowed = true }";

never!(
    no_cylinder_open_while_moving_common_practice_no_source,
    [CYLINDER],
    [("gas_cylinder.valve", "open"), MOVING],
    "gas_cylinder.open_on_the_road",
    Danger,
    "common practice, no source"
);
never!(
    on_the_road_only_the_cylinder_in_use_is_open_common_practice_no_source,
    [("gas_cylinder", ALLOWED), ("gas_cylinder", ALLOWED)],
    [("gas_cylinder.valve", "open"), ("gas_cylinder_2.valve", "open"), MOVING],
    "gas_cylinder.two_open_on_the_road",
    Danger,
    "common practice, no source"
);
never!(
    pitched_only_the_cylinder_in_use_is_open_common_practice_no_source,
    [CYLINDER, CYLINDER],
    [("gas_cylinder.valve", "open"), ("gas_cylinder_2.valve", "open")],
    "gas_cylinder.two_open",
    Nuisance,
    "common practice, no source"
);
never!(
    no_loose_cylinder_on_the_road_en_1949,
    [CYLINDER],
    [("gas_cylinder.strap", "loose"), MOVING],
    "gas_cylinder.loose_on_the_road",
    Damage,
    "EN 1949"
);
never!(
    the_drop_of_the_gas_locker_is_clear_en_1949,
    [CYLINDER, ("fixed_vent", "values = { serves = \"gas_locker\" }")],
    [("fixed_vent.grille", "blocked"), ("gas_cylinder.valve", "open")],
    "fixed_vent.gas_gathers",
    Danger,
    "EN 1949"
);
never!(
    a_regulator_past_its_date_is_not_used_common_practice_no_source,
    [CYLINDER, ("gas_regulator", "")],
    [("gas_regulator.date", "past"), ("gas_cylinder.valve", "open")],
    "gas_regulator.past_its_date",
    Damage,
    "common practice, no source"
);
never!(
    a_bad_hose_is_not_used_common_practice_no_source,
    [CYLINDER, ("gas_hose", "")],
    [("gas_hose.condition", "bad"), ("gas_cylinder.valve", "open")],
    "gas_hose.bad_under_pressure",
    Danger,
    "common practice, no source"
);
never!(
    no_joint_off_an_open_valve_common_practice_no_source,
    [CYLINDER, ("gas_hose", "")],
    [("gas_hose.joint", "off"), ("gas_cylinder.valve", "open")],
    "gas_hose.off_an_open_valve",
    Danger,
    "common practice, no source"
);
never!(
    nothing_is_lit_before_the_joint_was_sprayed_common_practice_no_source,
    [CYLINDER, ("gas_hose", ""), ("hob", "")],
    [("gas_hose.leak_test", "due"), ("gas_cylinder.valve", "open"), ("hob.burners", "lit")],
    "gas_hose.cooking_unsprayed",
    Danger,
    "common practice, no source"
);

#[test]
fn a_cylinder_is_opened_upright_and_strapped_en_1949() {
    let vehicle = vehicle(&[CYLINDER]);
    let loose = [("gas_cylinder.strap", "loose")];
    assert_eq!(refused(&vehicle, "gas_cylinder.open", &loose), ["gas_cylinder.strap"]);
    assert_eq!(refused(&vehicle, "gas_cylinder.open", &[]), [""; 0]);
}

/// Nothing, a hose-rupture valve, a crash sensor: only the last lets the manual allow it.
#[test]
fn the_pack_says_what_is_fitted_and_what_the_manual_allows_common_practice_no_source() {
    let catalogue = Catalogue::built_in().unwrap();
    for (fitted, may) in [("none", false), ("hose_rupture", false), ("crash_sensor", true)] {
        let lines = format!(
            "values = {{ road_protection = \"{fitted}\", open_on_the_road_allowed = true }}"
        );
        let text = pack_of(&[("gas_cylinder", &lines)]);
        assert_eq!(pack::read("made up", text.as_bytes(), catalogue).is_ok(), may, "{fitted}");
    }
}

#[test]
fn the_owner_chooses_per_trip_and_shut_is_the_default_common_practice_no_source() {
    let vehicle = vehicle(&[("gas_cylinder", ALLOWED)]);
    let number = vehicle.variable("gas_cylinder.road_choice").unwrap();
    let known = &vehicle.variables[number];
    let assumed = known.names_of(known.assume);
    assert_eq!(
        (assumed.as_slice(), known.lasts),
        (["shut".to_owned()].as_slice(), stowfast_core::catalogue::Lasts::Trip)
    );
    let open = ("gas_cylinder.valve", "open");
    let drives = |facts: &[_]| refused(&vehicle, "engine.drive_off", facts);
    assert!(drives(&[open]).contains(&"gas_cylinder.open_on_the_road".to_owned()));
    let chosen = [open, ("gas_cylinder.road_choice", "open")];
    assert!(!drives(&chosen).contains(&"gas_cylinder.open_on_the_road".to_owned()));
}

/// All flames out, shut, off, seal looked at, on, open, sprayed: each step waits for the one before.
#[test]
fn changing_a_cylinder_keeps_its_order_common_practice_no_source() {
    let vehicle = vehicle(&[CYLINDER, ("gas_hose", ""), ("hob", "")]);
    let lit = [("hob.burners", "lit"), ("hob.lid", "up")];
    assert_eq!(refused(&vehicle, "gas_hose.take_off", &lit), ["hob.burners"]);
    let off = ("gas_hose.joint", "off");
    assert_eq!(refused(&vehicle, "gas_hose.exchange", &[]), ["gas_hose.joint"]);
    assert_eq!(refused(&vehicle, "gas_hose.screw_on", &[off]), ["gas_hose.seal"]);
    assert_eq!(refused(&vehicle, "gas_cylinder.open", &[off]), ["gas_hose.off_an_open_valve"]);
    assert_eq!(refused(&vehicle, "gas_hose.spray", &[]), ["gas_cylinder.valve"]);
}

#[test]
fn a_refillable_is_filled_isolated_with_nothing_lit_common_practice_no_source() {
    let fitted = [
        "gas_filling_point",
        "gas_cylinder",
        "hob",
        "oven",
        "grill",
        "boiler",
        "heater_gas",
        "heater_diesel",
        "fridge_three_way",
        "generator",
    ];
    let vehicle = vehicle(&fitted.map(|kind| (kind, "")));
    let ready = [
        ("gas_filling_point.cap", "off"),
        ("fridge_three_way.selector", "off"),
        ("pitch.kind", "fuel_station"),
        ("pitch.flame", "forbidden"),
    ];
    let with =
        |fact| refused(&vehicle, "gas_filling_point.fill", &[ready.as_slice(), &[fact]].concat());
    assert_eq!(refused(&vehicle, "gas_filling_point.fill", &ready), [""; 0]);
    for fact in [
        ("gas_cylinder.valve", "open"),
        ("engine.running", "on"),
        ("hob.burners", "lit"),
        ("oven.burner", "lit"),
        ("grill.burner", "lit"),
        ("boiler.heat", "gas"),
        ("heater_gas.heat", "gas"),
        ("heater_diesel.heat", "low"),
        ("generator.power", "on"),
        ("pitch.kind", "pitch"),
        ("pitch.flame", "allowed"),
        ("fridge_three_way.selector", "gas"),
        ("fridge_three_way.selector", "auto"),
    ] {
        assert!(with(fact).contains(&fact.0.to_owned()), "{fact:?}");
    }
}

/// It stays where it is: no full one takes its place.
#[test]
fn a_refillable_is_never_exchanged_common_practice_no_source() {
    let hose = |lines| vehicle(&[CYLINDER, ("gas_hose", lines)]);
    let refillable = hose("values = { cylinder_is = \"refillable\" }");
    assert!(refillable.action("gas_hose.exchange").is_err());
    assert!(hose("").action("gas_hose.exchange").is_ok());
}

says!(filling_stops_by_itself_at_80_per_cent_and_may_be_forbidden_csa_b149_2,
    "gas_filling_point.caution.fill": ["valve stops at 80 %", "countries", "forbid"],
    "gas_filling_point.move.fill": ["until the pump stops by itself"]);
says!(clockwise_shuts_and_anticlockwise_opens_common_practice_no_source,
    "gas_cylinder.move.open": ["anticlockwise"],
    "gas_cylinder.move.shut": [", clockwise"]);
