//! Laying up for the winter, and back in service.

use stowfast_core::vehicle::{Settings, Vehicle};

use crate::bench::{Fact, in_order, planned, refused, vehicle};

const LAID_UP: Fact = ("pitch.purpose", "laid_up");

never!(
    a_fridge_goes_off_before_the_cylinders_are_shut_for_the_winter_common_practice_no_source,
    [("fridge_three_way", ""), ("gas_cylinder", "")],
    [("fridge_three_way.selector", "auto"), ("gas_cylinder.valve", "shut"), LAID_UP],
    "fridge_three_way.left_looking",
    Nuisance,
    "common practice, no source"
);
never!(
    a_hose_that_stood_is_looked_over_before_gas_comes_common_practice_no_source,
    [("gas_hose", ""), ("gas_cylinder", "")],
    [("gas_hose.look_over", "due"), ("gas_cylinder.valve", "open")],
    "gas_hose.not_looked_over",
    Nuisance,
    "common practice, no source"
);
never!(
    a_regulator_that_stood_is_looked_over_before_gas_comes_common_practice_no_source,
    [("gas_regulator", ""), ("gas_cylinder", "")],
    [("gas_regulator.look_over", "due"), ("gas_cylinder.valve", "open")],
    "gas_regulator.not_looked_over",
    Nuisance,
    "common practice, no source"
);
never!(
    no_battery_is_isolated_empty_common_practice_no_source,
    [("battery_isolator", ""), ("leisure_battery", "")],
    [("battery_isolator.lever", "off"), ("leisure_battery.charge", "empty")],
    "battery_isolator.left_empty",
    Nuisance,
    "common practice, no source"
);
never!(
    the_waste_hose_stays_on_until_the_taps_have_run_empty_common_practice_no_source,
    [("waste_hose", ""), ("waste_tank", ""), ("tap", "")],
    [
        ("waste_hose.hose", "stowed"),
        ("waste_tank.drain", "open"),
        ("tap.run_empty", "due"),
        LAID_UP
    ],
    "waste_hose.taps_run_past_it",
    Nuisance,
    "common practice, no source"
);
never!(
    leaks_are_looked_for_before_the_pump_runs_common_practice_no_source,
    [("interior", ""), ("pump", "")],
    [("interior.look_through", "due"), ("pump.power", "on")],
    "interior.water_in_unseen",
    Nuisance,
    "common practice, no source"
);
never!(
    the_main_switch_goes_off_before_the_post_bs_7671_721,
    [("mains_lead", ""), ("main_switch", ""), ("inlet_flap", "")],
    [("post.switch", "off"), ("main_switch.lever", "on"), ("mains_lead.post_end", "in")],
    "post.cut_under_load",
    Nuisance,
    "BS 7671 section 721"
);

/// The settings that a step brings about, as `variable = setting`; thrown back ones too.
fn brought(vehicle: &Vehicle, step: &str) -> Vec<String> {
    let (_, action) = vehicle.action(step).unwrap();
    let said = action.effects.iter().map(|effect| {
        let variable = &vehicle.variables[effect.variable];
        format!("{} = {}", variable.id, variable.names_of(Settings::one(effect.to)).join(""))
    });
    said.collect()
}

/// The valve lets the boiler's water out, as its drain does: hot, it scalds.
#[test]
fn the_frost_valve_empties_the_boiler_and_only_once_it_is_cool_common_practice_no_source() {
    let vehicle = vehicle(&[("boiler", ""), ("frost_valve", "")]);
    let opened = brought(&vehicle, "frost_valve.open_valve");
    assert_eq!(opened[..2], ["frost_valve.valve = open", "boiler.water = empty"]);
    let hot = [("boiler.heat.cool_min", "young")];
    assert_eq!(refused(&vehicle, "frost_valve.open_valve", &hot), ["boiler.scalds"]);
    assert_eq!(refused(&vehicle, "frost_valve.open_valve", &[]), [""; 0]);
}

/// It fills nothing: with less in the tank than it keeps, opening it changes no level.
#[test]
fn the_travel_drain_lets_the_tank_fall_and_never_fills_it_common_practice_no_source() {
    let vehicle = vehicle(&[("travel_drain", ""), ("fresh_tank", "")]);
    let full = [("fresh_tank.level", "full")];
    let low = [("fresh_tank.level", "low")];
    assert!(
        brought(&vehicle, "travel_drain.let_down")
            .contains(&"fresh_tank.level = travel".to_owned())
    );
    assert_eq!(refused(&vehicle, "travel_drain.let_down", &low), ["fresh_tank.level"]);
    assert_eq!(refused(&vehicle, "travel_drain.open_valve", &low), [""; 0]);
    assert_eq!(refused(&vehicle, "travel_drain.open_valve", &full), ["fresh_tank.level"]);
}

#[test]
fn a_lay_up_makes_hoses_regulator_and_leak_test_due_common_practice_no_source() {
    let vehicle =
        vehicle(&[("gas_cylinder", ""), ("gas_hose", ""), ("gas_regulator", ""), ("hob", "")]);
    let due = brought(&vehicle, "gas_cylinder.lay_up");
    for one in ["gas_hose.look_over", "gas_hose.leak_test", "gas_regulator.look_over"] {
        assert!(due.contains(&format!("{one} = due")), "{one}: {due:?}");
    }
    assert!(due.contains(&"hob.flame = untried".to_owned()), "{due:?}");
    let lit = [("hob.burners", "lit")];
    assert_eq!(refused(&vehicle, "gas_cylinder.lay_up", &lit), ["hob.burners"]);
}

#[test]
fn appliances_go_off_then_the_cylinder_is_shut_then_seen_to_common_practice_no_source() {
    let vehicle = vehicle(&[("gas_cylinder", ""), ("fridge_three_way", ""), ("hob", "")]);
    let facts =
        [LAID_UP, ("gas_cylinder.valve", "open"), ("hob.burners", "lit"), ("hob.lid", "up")];
    let ids = planned(&vehicle, "laid_up_winter", &facts);
    in_order(&ids, &["fridge_three_way.set_off", "gas_cylinder.shut", "gas_cylinder.lay_up"]);
    in_order(&ids, &["hob.put_out", "gas_cylinder.lay_up"]);
}

/// Hoses and regulator first, then gas, then the spray, then one burner after the other.
#[test]
fn gas_comes_back_hose_first_and_flame_last_common_practice_no_source() {
    let vehicle = vehicle(&[
        ("gas_cylinder", ""),
        ("gas_hose", ""),
        ("gas_regulator", ""),
        ("hob", ""),
        ("boiler", ""),
        ("fridge_three_way", ""),
    ]);
    let facts = [
        ("gas_hose.look_over", "due"),
        ("gas_hose.leak_test", "due"),
        ("gas_regulator.look_over", "due"),
        ("hob.flame", "untried"),
        ("boiler.flame", "untried"),
        ("boiler.water", "full"),
        ("fridge_three_way.flame", "untried"),
        ("fridge_three_way.selector", "off"),
    ];
    let ids = planned(&vehicle, "gas_back_in_service", &facts);
    let looked = ["gas_hose.look_it_over", "gas_regulator.look_it_over"];
    let lit = ["hob.try_burners", "boiler.try_burner", "fridge_three_way.try_burner"];
    for first in looked {
        in_order(&ids, &[first, "gas_cylinder.open", "gas_hose.spray"]);
    }
    for last in lit {
        in_order(&ids, &["gas_cylinder.open", "gas_hose.spray", last]);
    }
    in_order(&ids, &["boiler.cover_off", "boiler.try_burner"]);
    in_order(&ids, &["hob.lid_up", "hob.try_burners"]);
}

/// Drains shut, then water; disinfected for its time, then flushed into the waste point.
#[test]
fn water_comes_back_disinfected_and_flushed_into_the_waste_point_common_practice_no_source() {
    let vehicle = vehicle(&[
        ("fresh_tank", ""),
        ("fill_hose", ""),
        ("pump", ""),
        ("water_system", ""),
        ("water_strainer", ""),
        ("waste_tank", ""),
        ("waste_hose", ""),
        ("interior", ""),
    ]);
    let facts = [
        ("pitch.water", "tap"),
        ("pitch.waste_point", "here"),
        ("fresh_tank.level", "empty"),
        ("fresh_tank.drain", "open"),
        ("water_strainer.bowl", "emptied"),
        ("waste_tank.level", "empty"),
        ("waste_tank.drain", "open"),
        ("water_system.state", "due"),
        ("water_system.state.soak_min", "young"),
        ("interior.look_through", "due"),
        ("interior.cushions", "stood_up"),
    ];
    let ids = planned(&vehicle, "back_in_service", &facts);
    in_order(
        &ids,
        &[
            "fresh_tank.shut_drain",
            "fresh_tank.start_filling",
            "fresh_tank.end_filling",
            "pump.switch_on",
            "water_system.disinfect",
            "water_system.state.soak_min.wait",
            "water_system.flush_out",
            "waste_tank.shut_drain",
            "waste_hose.stow",
        ],
    );
    in_order(&ids, &["water_strainer.fit", "pump.switch_on"]);
    in_order(&ids, &["waste_hose.connect", "water_system.flush_out"]);
    in_order(&ids, &["interior.look_it_through", "pump.switch_on"]);
    in_order(&ids, &["interior.look_it_through", "interior.put_back"]);
    let nowhere = [("pitch.waste_point", "none"), ("water_system.state", "dosed")];
    let refused = refused(&vehicle, "water_system.flush_out", &nowhere);
    assert!(refused.contains(&"pitch.waste_point".to_owned()), "{refused:?}");
}

/// The bowl of the strainer is on for the purge and comes off after it, and so does the trap dry.
#[test]
fn the_strainer_and_the_trap_come_after_the_purge_common_practice_no_source() {
    let vehicle = vehicle(&[
        ("pump", ""),
        ("pump_line", ""),
        ("water_strainer", ""),
        ("tap", ""),
        ("shower", ""),
        ("fresh_tank", ""),
    ]);
    let facts =
        [LAID_UP, ("pump.power", "on"), ("pump_line.line", "wet"), ("fresh_tank.level", "low")];
    let ids = planned(&vehicle, "laid_up_winter", &facts);
    for last in ["water_strainer.empty", "shower.dry_trap"] {
        in_order(&ids, &["pump.switch_off", "tap.run_mixer_empty", "pump_line.clear", last]);
    }
}

/// An emptied cassette without additive is not in use: it does not fill while it stands.
#[test]
fn a_laid_up_toilet_does_not_fill_common_practice_no_source() {
    let vehicle = vehicle(&[("cassette_toilet", "")]);
    let dose = vehicle.variable("cassette_toilet.dose").unwrap();
    let level = vehicle.variable("cassette_toilet.level").unwrap();
    let mut fills = vehicle.settlings.iter().filter(|one| one.variable == level).peekable();
    assert!(fills.peek().is_some());
    assert!(fills.all(|one| one.during.iter().any(|literal| literal.variable == dose)));
    let facts = [("cassette_toilet.level", "empty"), ("cassette_toilet.flush_tank", "part")];
    let refused = refused(&vehicle, "cassette_toilet.set_blade_ajar", &facts);
    assert_eq!(refused, ["cassette_toilet.flush_tank"], "it would run into the cassette");
}

says!(
    what_only_a_fitter_may_do_is_left_to_him_common_practice_no_source,
    "gas_hose.caution.spray": ["test by a gas fitter", "never a flame"],
    "gas_hose.caution.look_it_over": ["Your country may ask for less", "only a gas fitter may renew it"],
    "gas_regulator.caution.look_it_over": ["keep the cylinder shut"],
    "boiler.caution.try_burner": ["Red lamp again", "Ask a gas fitter"]
);
says!(
    a_battery_is_isolated_full_and_charged_through_the_winter_common_practice_no_source,
    "battery_isolator.caution.switch_off": ["full first", "lithium as its maker says", "Charge it again"],
    "battery_isolator.caution.switch_on": ["Look the battery over first"]
);
says!(
    what_stands_all_winter_stands_dry_and_open_common_practice_no_source,
    "fridge_door.caution.prop": ["food out, wiped dry"],
    "cassette_toilet.caution.set_blade_ajar": ["Dry and treat its seal"],
    "interior.caution.stand_up": ["Fixed vents stay free"]
);
