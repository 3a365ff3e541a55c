//! A boiler that heats on gas and mains together, and at two powers.

use stowfast_core::catalogue::Severity;

use crate::bench::{Fact, believing, in_order, never, planned, refused, vehicle};

const MIXES: &str = "values = { mixes = true, two_powers = true }";
const MIXED: Fact = ("boiler.heat", "mixed");

/// Every rule of gas and every rule of mains holds for both together.
#[test]
fn gas_and_mains_together_break_the_rules_of_both_common_practice_no_source() {
    let rules: [(&str, Fact, &str, Severity); 5] = [
        ("pitch", ("pitch.flame", "forbidden"), "boiler.burning_where_forbidden", Severity::Danger),
        ("engine", ("engine.wheels", "moving"), "boiler.burning_on_the_road", Severity::Danger),
        ("boiler", ("boiler.cover", "on"), "boiler.lit_under_cover", Severity::Danger),
        ("boiler", ("boiler.water", "empty"), "boiler.heated_dry", Severity::Damage),
        ("boiler", ("boiler.drain", "open"), "boiler.heated_with_drain_open", Severity::Damage),
    ];
    for (_, fact, clause, severity) in rules {
        never(&[("boiler", MIXES)], &[MIXED, fact], (clause, severity, "common practice"));
    }
    let untested = [MIXED, ("main_switch.rcd", "untested")];
    let rcd = ("main_switch.boiler_on_untested_rcd", Severity::Danger, "BS 7671");
    never(&[("boiler", MIXES), ("main_switch", "")], &untested, rcd);
    let off = [MIXED, ("main_switch.lever", "off")];
    let load = ("main_switch.load_on_switch", Severity::Damage, "BS 7671");
    never(&[("boiler", MIXES), ("main_switch", "")], &off, load);
    let without = vehicle(&[("boiler", "")]);
    assert!(without.action("boiler.heat_mixed").is_err());
}

/// Too much for 6 A only at its high power.
#[test]
fn at_its_low_power_a_boiler_is_not_too_much_for_6_a_common_practice_no_source() {
    let big = "values = { two_powers = true, mains_w = 1800 }";
    let facts = [("post.rating", "a6"), ("boiler.heat", "electric"), ("boiler.element", "high")];
    let rule = ("post.boiler_above_6_a", Severity::Nuisance, "common practice");
    never(&[("boiler", big)], &facts, rule);
    let one_power = vehicle(&[("boiler", "")]);
    let element = one_power.variable("boiler.element").unwrap();
    assert_eq!(believing(&one_power, &[])[element].single(), Some(1), "always high");
}

/// The same of electric heating.
#[test]
fn at_its_low_power_a_heater_is_not_too_much_for_6_a_common_practice_no_source() {
    let big = "values = { two_powers = true, mains_w = 1800 }";
    let facts = [
        ("post.rating", "a6"),
        ("heater_electric.heat", "on"),
        ("heater_electric.element", "high"),
    ];
    let rule = ("post.heater_above_6_a", Severity::Nuisance, "common practice");
    never(&[("heater_electric", big)], &facts, rule);
    let one_power = vehicle(&[("heater_electric", "")]);
    let element = one_power.variable("heater_electric.element").unwrap();
    assert_eq!(believing(&one_power, &[])[element].single(), Some(1), "always high");
}

/// What has to go out for a cylinder is lit again as it was, once the joints are sprayed.
#[test]
fn what_had_to_go_out_for_a_cylinder_is_lit_again_common_practice_no_source() {
    let fitted =
        ["gas_cylinder", "gas_hose", "boiler", "heater_gas", "fridge_three_way", "main_switch"];
    let vehicle = vehicle(&fitted.map(|kind| (kind, "")));
    let on = [
        ("boiler.heat", "gas"),
        ("boiler.cover", "off"),
        ("boiler.water", "full"),
        ("heater_gas.heat", "gas"),
        ("fridge_three_way.selector", "auto"),
        ("gas_cylinder.valve", "open"),
        ("gas_cylinder.level", "empty"),
        ("main_switch.lever", "off"),
    ];
    let ids = planned(&vehicle, "cylinder_changed", &on);
    for (out, again) in [
        ("boiler.switch_off", "boiler.heat_gas"),
        ("heater_gas.switch_off", "heater_gas.light"),
        ("fridge_three_way.set_off", "fridge_three_way.set_auto"),
    ] {
        in_order(&ids, &[out, "gas_hose.take_off", "gas_hose.exchange", "gas_hose.spray", again]);
    }
    let unsprayed = [("gas_hose.leak_test", "due"), ("gas_cylinder.valve", "open"), on[1], on[2]];
    let early = refused(&vehicle, "boiler.heat_gas", &unsprayed);
    assert!(early.contains(&"gas_hose.heating_unsprayed".to_owned()), "{early:?}");
}

/// Where no flame may burn nothing is lit again: that is left to the owner, and the page says so.
#[test]
fn at_the_pump_nothing_is_lit_again_common_practice_no_source() {
    let vehicle = vehicle(&[("boiler", ""), ("heater_gas", "")]);
    let on = [
        ("boiler.heat", "gas"),
        ("boiler.cover", "off"),
        ("boiler.water", "full"),
        ("heater_gas.heat", "gas"),
    ];
    let ids = planned(&vehicle, "ready_to_refuel", &on);
    let lit = ["boiler.heat_gas", "heater_gas.light"];
    assert!(ids.iter().all(|id| !lit.contains(&id.as_str())), "{ids:?}");
    let text = &stowfast_core::catalogue::Catalogue::built_in().unwrap().texts["en"];
    for target in ["ready_to_refuel", "ready_to_board"] {
        let said = text.get(&format!("target.{target}.reached")).unwrap();
        assert!(said.contains("Nothing is lit again"), "{target}: {said}");
    }
}
