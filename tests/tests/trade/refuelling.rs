//! Refuelling: nothing burns, nothing lights by itself, one flap at a time.

use crate::bench::{planned, refused, vehicle};

const FORBIDDEN: (&str, &str) = ("pitch.flame", "forbidden");
const FILLER: (&str, &str) = ("diesel_filler", "");

never!(
    the_engine_is_off_common_practice_no_source,
    [FILLER],
    [("diesel_filler.cap", "open"), ("engine.running", "on")],
    "diesel_filler.open_with_engine_on",
    Danger,
    "common practice, no source"
);
never!(
    the_boiler_is_out_common_practice_no_source,
    [("boiler", "")],
    [("boiler.heat", "gas"), FORBIDDEN],
    "boiler.burning_where_forbidden",
    Danger,
    "common practice, no source"
);
never!(
    the_gas_heater_is_out_common_practice_no_source,
    [("heater_gas", "")],
    [("heater_gas.heat", "gas"), FORBIDDEN],
    "heater_gas.burning_where_forbidden",
    Danger,
    "common practice, no source"
);
never!(
    the_fuel_fired_heater_has_run_out_un_r122,
    [("heater_diesel", "")],
    [("heater_diesel.heat.after_run_min", "young"), FORBIDDEN],
    "heater_diesel.burning_where_forbidden",
    Danger,
    "UN Regulation 122"
);
never!(
    the_fridge_cannot_choose_gas_common_practice_no_source,
    [("fridge_three_way", ""), ("gas_cylinder", "")],
    [("fridge_three_way.selector", "auto"), ("gas_cylinder.valve", "open"), FORBIDDEN],
    "fridge_three_way.gas_where_forbidden",
    Danger,
    "common practice, no source"
);
never!(
    the_hob_is_off_common_practice_no_source,
    [("hob", "")],
    [("hob.burners", "lit"), FORBIDDEN],
    "hob.lit_where_forbidden",
    Danger,
    "common practice, no source"
);
never!(
    one_filler_at_a_time_common_practice_no_source,
    [FILLER, ("urea_tank", "")],
    [("diesel_filler.cap", "open"), ("urea_tank.cap", "open")],
    "diesel_filler.two_fillers_open",
    Damage,
    "common practice, no source"
);
never!(
    no_start_with_a_wrong_liquid_in_the_diesel_common_practice_no_source,
    [FILLER],
    [("diesel_filler.liquid", "wrong"), ("engine.running", "on")],
    "diesel_filler.wrong_liquid",
    Damage,
    "common practice, no source"
);
never!(
    no_start_with_a_wrong_liquid_in_the_urea_common_practice_no_source,
    [("urea_tank", "")],
    [("urea_tank.liquid", "wrong"), ("engine.running", "on")],
    "urea_tank.wrong_liquid",
    Damage,
    "common practice, no source"
);
never!(
    no_pump_with_a_wrong_liquid_in_the_water_common_practice_no_source,
    [("fresh_tank", ""), ("pump", "")],
    [("fresh_tank.liquid", "wrong"), ("pump.power", "on")],
    "fresh_tank.wrong_liquid",
    Damage,
    "common practice, no source"
);

/// Whatever protection is fitted and whatever was chosen for the trip.
#[test]
fn a_flame_is_danger_whatever_is_fitted_common_practice_no_source() {
    let allowed =
        "values = { road_protection = \"crash_sensor\", open_on_the_road_allowed = true }";
    let on_the_road = "values = { on_the_road_allowed = true }";
    let vehicle = vehicle(&[("gas_cylinder", allowed), ("heater_gas", on_the_road)]);
    let facts = [("gas_cylinder.valve", "open"), ("gas_cylinder.road_choice", "open"), FORBIDDEN];
    let refusal = refused(&vehicle, "heater_gas.light", &facts);
    assert_eq!(refusal, ["heater_gas.burning_where_forbidden"]);
}

#[test]
fn getting_ready_puts_everything_out_common_practice_no_source() {
    let kinds =
        ["boiler", "heater_gas", "heater_diesel", "hob", "fridge_three_way", "gas_cylinder"];
    let vehicle = vehicle(&kinds.map(|kind| (kind, "")));
    let facts = [
        ("boiler.heat", "gas"),
        ("boiler.cover", "off"),
        ("boiler.water", "full"),
        ("heater_gas.heat", "gas"),
        ("heater_diesel.heat", "high"),
        ("hob.burners", "lit"),
        ("hob.lid", "up"),
        ("fridge_three_way.selector", "auto"),
        ("gas_cylinder.valve", "open"),
    ];
    let ids = planned(&vehicle, "ready_to_refuel", &facts);
    for step in
        ["boiler.switch_off", "heater_gas.switch_off", "heater_diesel.switch_off", "hob.put_out"]
    {
        assert!(ids.iter().any(|id| id == step), "{step}: {ids:?}");
    }
    let cannot_light = ["gas_cylinder.shut", "fridge_three_way.set_off"];
    assert!(ids.iter().any(|id| cannot_light.contains(&id.as_str())), "{ids:?}");
}

says!(the_flap_is_named_before_it_is_opened_common_practice_no_source,
    "diesel_filler.caution.open": ["before you open it: diesel"],
    "urea_tank.caution.open": ["before you open it: urea"],
    "water_filler.caution.open": ["before you open it: water"]);
says!(wrong_liquid_means_no_start_common_practice_no_source,
    "urea_tank.caution.fill": ["AUS 32", "Wrong liquid in any tank: do not start the engine"]);
