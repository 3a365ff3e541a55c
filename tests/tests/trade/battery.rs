//! Battery and 12 V. When a reading is true is held in `core/src/engine/tests.rs`.

use crate::bench::{refused, vehicle};

const OFF: (&str, &str) = ("dc_master.power", "off");
const MASTER: (&str, &str) = ("dc_master", "");
const LITHIUM: (&str, &str) = ("leisure_battery", "values = { chemistry = \"lifepo4\" }");
const SOURCE: &str = "makers' data sheets of lithium iron phosphate cells";

never!(
    solar_is_off_before_the_battery_makers_manuals,
    [("solar_regulator", ""), ("battery_isolator", "")],
    [("solar_regulator.panels", "on"), ("battery_isolator.lever", "off")],
    "solar_regulator.without_battery",
    Damage,
    "makers' manuals"
);
never!(
    no_lithium_cell_is_charged_from_mains_below_zero_makers_data_sheets,
    [LITHIUM, ("charger", ""), ("main_switch", "")],
    [
        ("leisure_battery.cells", "below_zero"),
        ("pitch.tonight", "frost"),
        ("charger.power", "on"),
        ("main_switch.lever", "on")
    ],
    "leisure_battery.charged_in_frost",
    Damage,
    SOURCE
);
never!(
    no_lithium_cell_is_charged_from_the_sun_below_zero_makers_data_sheets,
    [LITHIUM, ("solar_regulator", "")],
    [
        ("leisure_battery.cells", "below_zero"),
        ("pitch.tonight", "frost"),
        ("solar_regulator.panels", "on")
    ],
    "leisure_battery.charged_in_frost",
    Damage,
    SOURCE
);
never!(
    the_master_stops_an_electric_step_common_practice_no_source,
    [MASTER, ("entrance_step", "")],
    [("entrance_step.step", "out"), OFF],
    "entrance_step.stuck_without_12v",
    Nuisance,
    "common practice, no source"
);
never!(
    the_master_stops_an_electric_blade_common_practice_no_source,
    [MASTER, ("cassette_toilet", "values = { electric_blade = true }")],
    [("cassette_toilet.blade", "open"), OFF],
    "cassette_toilet.blade_without_12v",
    Nuisance,
    "common practice, no source"
);
never!(
    the_master_may_stop_charging_common_practice_no_source,
    [MASTER, ("main_switch", ""), ("charger", "values = { fed_through_the_master = true }")],
    [("charger.power", "on"), OFF, ("main_switch.lever", "on")],
    "charger.without_master",
    Nuisance,
    "common practice, no source"
);
never!(
    the_master_stops_an_electric_bed_common_practice_no_source,
    [MASTER, ("drop_down_bed", "values = { electric = true }")],
    [("drop_down_bed.bed", "part"), OFF],
    "drop_down_bed.moved_without_12v",
    Damage,
    "common practice, no source"
);

/// Unknown in frost refuses; unknown in a mild night asks nobody; a guarded battery and other
/// chemistries ask nobody at all.
#[test]
fn an_unknown_cell_temperature_is_unknown_only_in_frost_makers_data_sheets() {
    let with = |lines: &str, tonight: &str| {
        let vehicle = vehicle(&[("leisure_battery", lines), ("solar_regulator", "")]);
        let mut beliefs = crate::bench::believing(
            &vehicle,
            &[("solar_regulator.panels", "off"), ("pitch.tonight", tonight)],
        );
        let cells = vehicle.variable("leisure_battery.cells").unwrap();
        beliefs[cells] = vehicle.variables[cells].all;
        let (_, action) = vehicle.action("solar_regulator.switch_on").unwrap();
        stowfast_core::interlock::is_permitted(&vehicle, &beliefs, action)
    };
    let lithium = "values = { chemistry = \"lifepo4\" }";
    assert!(!with(lithium, "frost"));
    assert!(with(lithium, "mild"));
    assert!(with("values = { chemistry = \"lifepo4\", guarded_in_frost = true }", "frost"));
    for chemistry in ["flooded", "agm", "gel"] {
        assert!(
            with(&format!("values = {{ chemistry = \"{chemistry}\" }}"), "frost"),
            "{chemistry}"
        );
    }
}

#[test]
fn the_master_comes_before_the_panel_common_practice_no_source() {
    let vehicle = vehicle(&[MASTER, ("control_panel", "")]);
    assert_eq!(refused(&vehicle, "control_panel.switch_on", &[OFF]), ["dc_master.power"]);
}

/// A spare that is used up is gone.
#[test]
fn a_spare_fuse_of_each_rating_is_carried_common_practice_no_source() {
    let vehicle = vehicle(&[("dc_fuse", "")]);
    let none = [("dc_fuse.spare", "none"), ("dc_fuse.state", "blown")];
    assert_eq!(refused(&vehicle, "dc_fuse.renew", &none), ["dc_fuse.spare"]);
}

says!(never_a_bigger_fuse_common_practice_no_source,
    "dc_fuse.caution.renew": ["same rating, never a bigger one"]);
says!(the_masters_other_effects_are_named_common_practice_no_source,
    "dc_master.caution.switch_off": ["alarms, step, frost valve, fridge, tracker"]);
says!(ignition_may_need_12v_and_the_knob_is_held_common_practice_no_source,
    "oven.caution.light": ["Hold the knob in until the flame stays", "lighting circuit"],
    "grill.caution.light": ["Hold the knob in until the flame stays"],
    "hob.caution.light": ["Hold the knob in until the flame stays", "some have none"]);
