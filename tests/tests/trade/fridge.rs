//! Three-way fridge. What it runs on, and when, is held in `core/src/fridge/tests.rs`.

use crate::bench::{planned, vehicle};

const FRIDGE: (&str, &str) = ("fridge_three_way", "");
const MOVING: (&str, &str) = ("engine.wheels", "moving");

never!(
    twelve_volts_only_with_the_engine_common_practice_no_source,
    [FRIDGE],
    [("fridge_three_way.selector", "dc"), ("engine.running", "off")],
    "fridge_three_way.flattens_battery",
    Damage,
    "common practice, no source"
);
never!(
    left_on_gas_it_is_a_hazard_of_the_road_common_practice_no_source,
    [FRIDGE],
    [("fridge_three_way.selector", "gas"), MOVING],
    "fridge_three_way.gas_on_the_road",
    Danger,
    "common practice, no source"
);
never!(
    its_electronics_need_12v_common_practice_no_source,
    [FRIDGE, ("dc_master", "")],
    [("fridge_three_way.selector", "mains"), ("dc_master.power", "off")],
    "fridge_three_way.dead_without_12v",
    Nuisance,
    "common practice, no source"
);
never!(
    locked_for_the_road_common_practice_no_source,
    [("fridge_door", "")],
    [("fridge_door.catch", "shut"), MOVING],
    "fridge_door.not_locked_on_the_road",
    Damage,
    "common practice, no source"
);
never!(
    propped_when_off_common_practice_no_source,
    [FRIDGE, ("fridge_door", "")],
    [("fridge_door.catch", "storage"), ("fridge_three_way.selector", "mains")],
    "fridge_door.propped_while_on",
    Nuisance,
    "common practice, no source"
);

/// Shut, travel, storage: one fitting with three settings.
#[test]
fn the_door_has_three_settings_common_practice_no_source() {
    let vehicle = vehicle(&[("fridge_door", "")]);
    let number = vehicle.variable("fridge_door.catch").unwrap();
    assert_eq!(vehicle.variables[number].settings, ["shut", "travel", "storage"]);
}

#[test]
fn on_hook_up_mains_comes_first_common_practice_no_source() {
    let vehicle = vehicle(&[FRIDGE, ("mains_lead", ""), ("main_switch", ""), ("gas_cylinder", "")]);
    for selector in ["off", "dc", "gas"] {
        let facts = [("post.supply", "live"), ("fridge_three_way.selector", selector)];
        let ids = planned(&vehicle, "pitched_hookup", &facts);
        let set: Vec<_> = ids.iter().filter(|id| id.starts_with("fridge_three_way.set")).collect();
        let last = set.last().unwrap().as_str();
        assert!(
            ["fridge_three_way.set_auto", "fridge_three_way.set_mains"].contains(&last),
            "{set:?}"
        );
    }
}

/// A compressor fridge has none of these rules: no flame, no mains, no engine.
#[test]
fn a_compressor_fridge_knows_none_of_this_common_practice_no_source() {
    let vehicle = vehicle(&[("fridge_compressor", ""), ("gas_cylinder", ""), ("dc_master", "")]);
    let about: Vec<_> =
        vehicle.clauses.iter().filter(|one| one.id.starts_with("fridge_compressor.")).collect();
    let named = about.iter().flat_map(|one| &one.literals).map(|one| one.variable);
    let named: Vec<_> = named.map(|one| vehicle.variables[one].id.as_str()).collect();
    assert_eq!(named, ["fridge_compressor.power", "dc_master.power"]);
}

says!(cool_it_before_loading_colder_first_then_the_middle_common_practice_no_source,
    "fridge_three_way.caution.set_mains": ["before loading", "colder setting first, then the middle"]);
says!(twelve_volts_hold_and_do_not_cool_down_common_practice_no_source,
    "fridge_three_way.caution.set_dc": ["holds the cold and does not cool down"]);
says!(level_when_parked_common_practice_no_source,
    "fridge_three_way.caution.set_auto": ["Parked on a slope it stops cooling: level"]);
says!(a_ferry_gives_it_nothing_common_practice_no_source,
    "fridge_three_way.caution.set_off": ["On a ferry nothing runs it", "stays cold for about"]);
says!(food_out_and_propped_when_off_common_practice_no_source,
    "fridge_door.caution.prop": ["food out"]);
