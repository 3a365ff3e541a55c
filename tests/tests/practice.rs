//! Rules of common practice, no source: each is refused where it should be, and not where it should
//! not. Every one of them says in the catalogue that it has no source.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test may fail loudly"
)]

use stowfast_core::catalogue::Catalogue;
use stowfast_core::interlock::{Refusal, refusals};
use stowfast_core::pack;
use stowfast_core::vehicle::{AgeOf, Settings, Vehicle};

const NO_SOURCE: &str = "common practice, no source";

/// Vehicle (a), with one line of its pack changed.
fn vehicle(line: &str, instead: &str) -> Vehicle {
    let text = include_str!("../../demo-data/a/pack.toml");
    assert!(text.contains(line));
    let catalogue = Catalogue::built_in().unwrap();
    let text = text.replacen(line, instead, 1);
    Vehicle::new(&pack::read("a", text.as_bytes(), catalogue).unwrap(), catalogue).unwrap()
}

fn as_built() -> Vehicle {
    vehicle("stowfast_pack = 1", "stowfast_pack = 1")
}

/// Everything as it is when nothing is known to be wrong, but for some facts.
fn believing(vehicle: &Vehicle, facts: &[(&str, &str)]) -> Vec<Settings> {
    let variables = vehicle.variables.iter();
    let usual = variables.map(|one| match (one.age_of, one.assume.single()) {
        (Some(_), _) => Settings::one(AgeOf::OLD),
        (None, Some(_)) => one.assume,
        (None, None) => Settings::one(one.usual),
    });
    let mut beliefs: Vec<_> = usual.collect();
    for (variable, setting) in facts {
        let number = vehicle.variable(variable).unwrap();
        beliefs[number] = Settings::one(vehicle.setting(number, setting).unwrap());
    }
    beliefs
}

/// The clauses that refuse a step; none where it is permitted.
fn refused(vehicle: &Vehicle, step: &str, facts: &[(&str, &str)]) -> Vec<String> {
    let (_, action) = vehicle.action(step).unwrap();
    let reasons = refusals(vehicle, &believing(vehicle, facts), action).into_iter();
    let named = reasons.map(|reason| match reason {
        Refusal::Clause(number) => {
            let clause = &vehicle.clauses[number];
            assert_eq!(clause.source, NO_SOURCE, "{}", clause.id);
            clause.id.clone()
        }
        Refusal::Before(_) => panic!("{step} waits for something"),
    });
    named.collect()
}

const READY_TO_HEAT: [(&str, &str); 9] = [
    ("boiler.water", "full"),
    ("boiler.drain", "shut"),
    ("lead.coil", "uncoiled"),
    ("lead.vehicle_end", "in"),
    ("lead.post_end", "in"),
    ("inlet_flap.leaf", "open"),
    ("post.supply", "live"),
    ("mains_switch.lever", "on"),
    ("mains_switch.rcd", "tested"),
];

#[test]
fn gas_hot_water_waits_for_the_flue_cover_and_electric_does_not_common_practice_no_source() {
    let vehicle = as_built();
    let covered = [READY_TO_HEAT.as_slice(), &[("boiler.cover", "on")]].concat();
    let open = [READY_TO_HEAT.as_slice(), &[("boiler.cover", "off")]].concat();
    assert_eq!(refused(&vehicle, "boiler.heat_gas", &covered), ["boiler.lit_under_cover"]);
    assert!(refused(&vehicle, "boiler.heat_electric", &covered).is_empty());
    assert!(refused(&vehicle, "boiler.heat_gas", &open).is_empty());
}

#[test]
fn the_cover_stays_off_while_gas_burns_common_practice_no_source() {
    let vehicle = as_built();
    let lit =
        [READY_TO_HEAT.as_slice(), &[("boiler.cover", "off"), ("boiler.heat", "gas")]].concat();
    assert_eq!(refused(&vehicle, "boiler.cover_on", &lit), ["boiler.lit_under_cover"]);
}

#[test]
fn no_heating_without_water_common_practice_no_source() {
    let vehicle = as_built();
    let dry = [READY_TO_HEAT.as_slice(), &[("boiler.cover", "off"), ("boiler.water", "empty")]];
    for step in ["boiler.heat_gas", "boiler.heat_electric"] {
        assert_eq!(refused(&vehicle, step, &dry.concat()), ["boiler.heated_dry"]);
    }
}

#[test]
fn the_pump_does_not_run_dry_common_practice_no_source() {
    let vehicle = as_built();
    let step = "pump.switch_on";
    assert_eq!(refused(&vehicle, step, &[("fresh.level", "empty")]), ["pump.runs_dry"]);
    for level in ["low", "travel", "more", "full"] {
        assert!(refused(&vehicle, step, &[("fresh.level", level)]).is_empty());
    }
}

#[test]
fn each_thing_left_out_keeps_the_wheels_still_common_practice_no_source() {
    let vehicle = as_built();
    let ready = [("walk_round.walked", "done"), ("mains_switch.lever", "off")];
    assert!(refused(&vehicle, "engine.drive_off", &ready).is_empty());
    let left = [
        ("step.step", "out", "entrance_step.out_on_the_road"),
        ("roof_bed.leaf", "ajar", "roof_light.open_on_the_road"),
        ("window_bed.leaf", "open", "window.open_on_the_road"),
        ("gas_right.valve", "open", "gas_cylinder.open_on_the_road"),
        ("fill_hose.hose", "connected", "fill_hose.connected_on_the_road"),
        ("waste_hose.hose", "connected", "waste_hose.connected_on_the_road"),
        ("lead.coil", "uncoiled", "mains_lead.lead_on_the_road"),
        ("inlet_flap.leaf", "open", "inlet_flap.open_on_the_road"),
        ("drawers.catch", "unlatched", "drawers.unlatched_on_the_road"),
        ("waste.drain", "open", "waste_tank.drain_open_on_the_road"),
        ("pump.power", "on", "pump.on_the_road"),
        ("walk_round.walked", "due", "walk_round.not_walked"),
    ];
    for (variable, setting, clause) in left {
        let facts = [ready.as_slice(), &[(variable, setting)]].concat();
        assert_eq!(refused(&vehicle, "engine.drive_off", &facts), [clause], "{variable}");
    }
}

#[test]
fn an_open_valve_may_travel_only_where_allowed_and_chosen_common_practice_no_source() {
    let line = "road_protection = \"hose_rupture\"";
    let allowed = "road_protection = \"crash_sensor\", open_on_the_road_allowed = true";
    let vehicle = vehicle(line, allowed);
    let ready = [("walk_round.walked", "done"), ("mains_switch.lever", "off")];
    let chosen = |choice| {
        let left = [("gas_left.valve", "open"), ("gas_left.road_choice", choice)];
        refused(&vehicle, "engine.drive_off", &[ready.as_slice(), &left].concat())
    };
    assert_eq!(chosen("shut"), ["gas_cylinder.open_on_the_road"]);
    assert!(chosen("open").is_empty());
    let right = [ready.as_slice(), &[("gas_right.valve", "open")]].concat();
    let refusal = refused(&vehicle, "engine.drive_off", &right);
    assert_eq!(refusal, ["gas_cylinder.open_on_the_road"]);
}

#[test]
fn no_flame_where_it_is_forbidden_common_practice_no_source() {
    let vehicle = as_built();
    let ready = [READY_TO_HEAT.as_slice(), &[("boiler.cover", "off")]].concat();
    for (flame, may) in [("allowed", true), ("forbidden", false)] {
        let facts = [ready.as_slice(), &[("pitch.flame", flame)]].concat();
        for step in ["boiler.heat_gas", "fridge.set_gas"] {
            assert_eq!(refused(&vehicle, step, &facts).is_empty(), may, "{step} {flame}");
        }
        let open = [("fridge.selector", "off"), ("gas_left.valve", "open")];
        let open = [facts.as_slice(), &open].concat();
        assert_eq!(refused(&vehicle, "fridge.set_auto", &open).is_empty(), may, "{flame}");
        assert!(refused(&vehicle, "fridge.set_auto", &facts).is_empty(), "with no gas to light");
    }
}

/// Vehicle (a) with one fitting more.
fn with(fitting: &str) -> Vehicle {
    let line = "[[fitting]]\nid = \"battery\"";
    vehicle(line, &format!("{fitting}\n{line}"))
}

#[test]
fn chocks_may_take_the_place_of_a_brake_that_would_seize_common_practice_no_source() {
    let bare = as_built();
    assert_eq!(refused(&bare, "handbrake.release", &[]), ["handbrake.rolls_away"]);
    let chocks = with(
        "[[fitting]]\nid = \"chocks\"\nkind = \"chocks\"\ntitle = \"chocks\"\nzone = \"rear\"",
    );
    assert_eq!(refused(&chocks, "handbrake.release", &[]), ["handbrake.rolls_away"]);
    assert!(refused(&chocks, "handbrake.release", &[("chocks.wedges", "set")]).is_empty());
}

#[test]
fn the_drain_of_an_empty_waste_tank_may_stay_open_common_practice_no_source() {
    let vehicle = as_built();
    let stow = |level| {
        let facts = [
            ("waste_hose.hose", "connected"),
            ("waste.drain", "open"),
            ("waste.level", level),
            ("pitch.waste_point", "here"),
        ];
        refused(&vehicle, "waste_hose.stow", &facts)
    };
    assert_eq!(stow("part"), ["waste_hose.off_an_open_drain"]);
    assert!(stow("empty").is_empty());
}
