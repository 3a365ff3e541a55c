//! Burning and breathing, after-run and hot water.

use crate::bench::{refused, vehicle};

const BESIDE: &str = "values = { beside_flue = true }";
const OFF: (&str, &str) = ("dc_master.power", "off");

never!(
    no_window_open_beside_a_lit_flue_common_practice_no_source,
    [("window", BESIDE), ("heater_gas", "")],
    [("window.leaf", "ajar"), ("heater_gas.heat", "gas")],
    "window.fumes_of_gas",
    Danger,
    "common practice, no source"
);
never!(
    no_roof_light_open_above_a_lit_flue_common_practice_no_source,
    [("roof_light", BESIDE), ("heater_diesel", "")],
    [("roof_light.leaf", "open"), ("heater_diesel.heat", "low")],
    "roof_light.fumes_of_fuel",
    Danger,
    "common practice, no source"
);
never!(
    nothing_within_the_clearance_of_a_lit_flue_common_practice_no_source,
    [("flue", ""), ("heater_gas", "")],
    [("flue.outlet", "blocked"), ("heater_gas.heat", "gas")],
    "flue.heater_stifled",
    Danger,
    "common practice, no source"
);
never!(
    no_awning_over_a_lit_flue_common_practice_no_source,
    [("awning", ""), ("boiler", "")],
    [("awning.cloth", "out"), ("boiler.heat", "gas")],
    "awning.over_lit_boiler",
    Danger,
    "common practice, no source"
);
never!(
    no_snow_over_a_lit_flue_common_practice_no_source,
    [("roof", ""), ("heater_gas", "")],
    [("roof.snow", "lying"), ("heater_gas.heat", "gas")],
    "roof.snow_over_flues",
    Danger,
    "common practice, no source"
);
never!(
    no_cooking_with_a_fixed_vent_covered_en_721,
    [("fixed_vent", ""), ("hob", "")],
    [("fixed_vent.grille", "blocked"), ("hob.burners", "lit")],
    "fixed_vent.cooking_without_air",
    Danger,
    "EN 721"
);
never!(
    no_grill_with_a_fixed_vent_covered_en_721,
    [("fixed_vent", ""), ("grill", "")],
    [("fixed_vent.grille", "blocked"), ("grill.burner", "lit")],
    "fixed_vent.grilling_without_air",
    Danger,
    "EN 721"
);
never!(
    no_hob_without_ventilation_open_common_practice_no_source,
    [("hob", ""), ("window", ""), ("roof_light", "")],
    [("hob.burners", "lit"), ("window.leaf", "shut"), ("roof_light.leaf", "shut")],
    "hob.lit_shut_in",
    Danger,
    "common practice, no source"
);
never!(
    no_oven_without_ventilation_open_common_practice_no_source,
    [("oven", ""), ("window", "")],
    [("oven.burner", "lit"), ("window.leaf", "shut")],
    "oven.lit_shut_in",
    Danger,
    "common practice, no source"
);
never!(
    no_grill_without_ventilation_open_common_practice_no_source,
    [("grill", ""), ("window", "")],
    [("grill.burner", "lit"), ("window.leaf", "shut")],
    "grill.lit_shut_in",
    Danger,
    "common practice, no source"
);
never!(
    the_flue_cover_is_off_before_its_burner_lights_common_practice_no_source,
    [("boiler", "")],
    [("boiler.heat", "gas"), ("boiler.cover", "on")],
    "boiler.lit_under_cover",
    Danger,
    "common practice, no source"
);
never!(
    a_wired_alarm_is_silenced_by_the_master_common_practice_no_source,
    [("co_alarm", ""), ("dc_master", "")],
    [("co_alarm.test", "done"), OFF],
    "co_alarm.silenced",
    Nuisance,
    "common practice, no source"
);
never!(
    the_master_does_not_cut_a_gas_heaters_after_run_common_practice_no_source,
    [("heater_gas", ""), ("dc_master", "")],
    [("heater_gas.heat.after_run_min", "young"), OFF],
    "heater_gas.after_run_cut",
    Damage,
    "common practice, no source"
);
never!(
    the_isolator_does_not_cut_a_diesel_heaters_after_run_common_practice_no_source,
    [("heater_diesel", ""), ("battery_isolator", "")],
    [("heater_diesel.heat.after_run_min", "young"), ("battery_isolator.lever", "off")],
    "heater_diesel.after_run_isolated",
    Damage,
    "common practice, no source"
);
never!(
    the_master_does_not_cut_an_electric_heaters_fan_common_practice_no_source,
    [("heater_electric", ""), ("dc_master", "")],
    [("heater_electric.heat.after_run_min", "young"), OFF],
    "heater_electric.after_run_cut",
    Damage,
    "common practice, no source"
);
never!(
    a_hot_boiler_is_not_drained_common_practice_no_source,
    [("boiler", "")],
    [("boiler.drain", "open"), ("boiler.heat.cool_min", "young")],
    "boiler.scalds",
    Danger,
    "common practice, no source"
);
never!(
    the_glass_lid_stays_up_until_the_hob_is_cool_common_practice_no_source,
    [("hob", "")],
    [("hob.lid", "down"), ("hob.burners.cool_min", "young")],
    "hob.lid_on_hot_hob",
    Damage,
    "common practice, no source"
);
never!(
    no_diesel_heater_below_its_fuel_floor_common_practice_no_source,
    [("heater_diesel", "")],
    [("heater_diesel.heat", "low"), ("heater_diesel.fuel", "below")],
    "heater_diesel.starved",
    Damage,
    "common practice, no source"
);

#[test]
fn electric_heating_of_water_does_not_need_the_flue_common_practice_no_source() {
    let vehicle = vehicle(&[("boiler", "")]);
    let covered = [("boiler.cover", "on"), ("boiler.water", "full")];
    assert_eq!(refused(&vehicle, "boiler.heat_electric", &covered), [""; 0]);
    assert_eq!(refused(&vehicle, "boiler.heat_gas", &covered), ["boiler.lit_under_cover"]);
}

#[test]
fn a_diesel_heater_is_set_high_first_common_practice_no_source() {
    let vehicle = vehicle(&[("heater_diesel", "")]);
    assert_eq!(refused(&vehicle, "heater_diesel.set_low", &[]), ["heater_diesel.heat"]);
    assert_eq!(
        refused(&vehicle, "heater_diesel.set_low", &[("heater_diesel.heat", "high")]),
        [""; 0]
    );
}

says!(hob_oven_and_grill_are_never_for_heating_common_practice_no_source,
    "hob.caution.light": ["never for heating"],
    "oven.caution.light": ["never for heating"],
    "grill.caution.light": ["never for heating"]);
says!(fixed_vents_are_never_covered_en_721,
    "fixed_vent.caution.clear": ["never be shut, taped or covered"]);
says!(lit_against_its_cover_it_locks_out_with_a_red_lamp_common_practice_no_source,
    "boiler.clause.lit_under_cover": ["stops with a red lamp"],
    "boiler.caution.heat_gas": ["Red lamp"]);
says!(flicker_and_a_high_current_are_normal_common_practice_no_source,
    "heater_diesel.caution.light": ["Lamps flicker", "that is normal"]);
