//! Water.

use crate::bench::{planned, refused, vehicle};

const PUMP: [(&str, &str); 2] = [("pump", ""), ("fresh_tank", "")];
const WASTE: [(&str, &str); 2] = [("waste_tank", ""), ("waste_hose", "")];

never!(
    the_tank_does_not_fill_on_the_road_common_practice_no_source,
    [PUMP[1]],
    [("fresh_tank.fill", "running"), ("engine.wheels", "moving")],
    "fresh_tank.filling_on_the_road",
    Damage,
    "common practice, no source"
);
never!(
    the_tank_fills_with_its_drain_shut_common_practice_no_source,
    [PUMP[1]],
    [("fresh_tank.fill", "running"), ("fresh_tank.drain", "open")],
    "fresh_tank.runs_out_below",
    Nuisance,
    "common practice, no source"
);
never!(
    drinking_water_and_the_cassette_are_kept_apart_common_practice_no_source,
    [("fill_hose", ""), ("cassette_toilet", "")],
    [("fill_hose.hose", "connected"), ("cassette_toilet.cassette", "out")],
    "fill_hose.toilet_beside_drinking_water",
    Nuisance,
    "common practice, no source"
);
never!(
    the_pump_does_not_run_dry_common_practice_no_source,
    [PUMP[0], PUMP[1]],
    [("pump.power", "on"), ("fresh_tank.level", "empty")],
    "pump.runs_dry",
    Damage,
    "common practice, no source"
);
never!(
    the_pump_is_discouraged_while_the_boiler_drain_is_open_common_practice_no_source,
    [PUMP[0], PUMP[1], ("boiler", "")],
    [("pump.power", "on"), ("boiler.drain", "open")],
    "boiler.pumped_away",
    Nuisance,
    "common practice, no source"
);
never!(
    the_boiler_is_lit_only_when_full_common_practice_no_source,
    [("boiler", "")],
    [("boiler.heat", "electric"), ("boiler.water", "empty")],
    "boiler.heated_dry",
    Damage,
    "common practice, no source"
);
never!(
    the_boiler_is_lit_only_with_its_drain_shut_common_practice_no_source,
    [("boiler", "")],
    [("boiler.heat", "gas"), ("boiler.drain", "open")],
    "boiler.heated_with_drain_open",
    Damage,
    "common practice, no source"
);
never!(
    some_frost_valves_open_without_12v_common_practice_no_source,
    [("boiler", ""), ("dc_master", ""), ("frost_valve", "values = { opens_without_12v = true }")],
    [("frost_valve.valve", "shut"), ("dc_master.power", "off")],
    "frost_valve.opens_by_itself",
    Nuisance,
    "common practice, no source"
);
never!(
    waste_goes_nowhere_but_into_its_point_common_practice_no_source,
    [WASTE[0], WASTE[1]],
    [("waste_tank.drain", "open"), ("pitch.waste_point", "none")],
    "waste_tank.let_out_on_the_ground",
    Damage,
    "common practice, no source"
);
never!(
    the_waste_valve_is_shut_on_the_road_common_practice_no_source,
    [WASTE[0], WASTE[1]],
    [("waste_tank.drain", "open"), ("engine.wheels", "moving")],
    "waste_tank.drain_open_on_the_road",
    Damage,
    "common practice, no source"
);

#[test]
fn the_purge_is_a_move_of_its_own_with_the_pump_off_common_practice_no_source() {
    let vehicle = vehicle(&PUMP.into_iter().chain([("pump_line", "")]).collect::<Vec<_>>());
    let empty = ("fresh_tank.level", "empty");
    assert_eq!(refused(&vehicle, "pump_line.clear", &[empty]), [""; 0]);
    assert_eq!(refused(&vehicle, "pump_line.clear", &[]), ["fresh_tank.level"]);
    assert!(!refused(&vehicle, "pump.switch_on", &[empty]).is_empty());
}

/// Drain and frost valve are two fittings; the valve shuts again only in the warm.
#[test]
fn the_frost_valve_is_not_the_drain_and_shuts_only_when_warm_common_practice_no_source() {
    let vehicle = vehicle(&[("boiler", ""), ("frost_valve", "")]);
    assert!(
        vehicle.variable("boiler.drain").is_ok() && vehicle.variable("frost_valve.valve").is_ok()
    );
    let cold = [("frost_valve.valve", "open"), ("frost_valve.warmth", "cold")];
    assert_eq!(refused(&vehicle, "frost_valve.shut_valve", &cold), ["frost_valve.warmth"]);
    assert_eq!(refused(&vehicle, "frost_valve.shut_valve", &cold[..1]), [""; 0]);
}

/// Waste is emptied before leaving where the place has the point for it, and left where it has not.
#[test]
fn waste_is_emptied_where_the_place_has_the_point_common_practice_no_source() {
    let vehicle = vehicle(&WASTE);
    let empties = |point: &str| {
        let facts = [("waste_tank.level", "part"), ("pitch.waste_point", point)];
        let ids = planned(&vehicle, "ready_to_drive", &facts);
        ids.iter().any(|id| id == "waste_tank.open_drain")
    };
    assert!(empties("here"));
    assert!(!empties("none"));
}

says!(a_pump_that_never_stops_common_practice_no_source,
    "pump.caution.switch_on": ["never stops", "no water, an open tap or an open drain"]);
says!(the_frost_valve_protects_the_boiler_alone_common_practice_no_source,
    "frost_valve.clause.boiler_runs_out": ["does not protect pipes, pump, tank or toilet"]);
says!(more_or_less_than_the_travel_fill_common_practice_no_source,
    "travel_drain.caution.let_down": ["more where the next stop has no water", "less where payload is short"]);
says!(red_means_refill_or_empty_common_practice_no_source,
    "fresh_tank.sign.level": ["Red", "refill"],
    "waste_tank.sign.level": ["Red", "empty it"]);
says!(never_on_to_the_ground_or_into_a_surface_drain_common_practice_no_source,
    "waste_tank.caution.open_drain": ["Never on to the ground or into a surface drain"],
    "cassette_toilet.caution.empty": ["Never on to the ground", "surface drain"]);
