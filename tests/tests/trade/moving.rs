//! Moving and levelling, urea, tyres, mass, snow: the rules. The order stands in `order.rs`, what
//! must be in for the road in `road.rs`.

use crate::bench::{refused, vehicle, words};
use stowfast_core::catalogue::Catalogue;

const MOVING: (&str, &str) = ("engine.wheels", "moving");
const ROLLING: (&str, &str) = ("ramps.under", "rolling");
const RAMPS: (&str, &str) = ("ramps", "");

never!(
    no_rolling_with_the_step_out_common_practice_no_source,
    [RAMPS, ("entrance_step", "")],
    [ROLLING, ("entrance_step.step", "out")],
    "ramps.rolling_with_step_out",
    Danger,
    "common practice, no source"
);
never!(
    no_rolling_on_steadies_common_practice_no_source,
    [RAMPS, ("steadies", "")],
    [ROLLING, ("steadies.legs", "down")],
    "ramps.rolling_on_steadies",
    Danger,
    "common practice, no source"
);
never!(
    no_rolling_on_the_lead_common_practice_no_source,
    [RAMPS, ("mains_lead", "")],
    [ROLLING, ("mains_lead.coil", "uncoiled")],
    "ramps.rolling_on_lead",
    Danger,
    "common practice, no source"
);
never!(
    no_rolling_with_the_awning_out_common_practice_no_source,
    [RAMPS, ("awning", "")],
    [ROLLING, ("awning.cloth", "out")],
    "ramps.rolling_with_awning_out",
    Danger,
    "common practice, no source"
);
never!(
    no_rolling_against_chocks_common_practice_no_source,
    [RAMPS, ("chocks", "")],
    [ROLLING, ("chocks.wedges", "set")],
    "ramps.rolling_on_chocks",
    Damage,
    "common practice, no source"
);
never!(
    no_driving_off_from_the_ramps_common_practice_no_source,
    [RAMPS],
    [("ramps.under", "on"), MOVING],
    "ramps.on_the_road",
    Damage,
    "common practice, no source"
);
never!(
    steadies_only_with_the_handbrake_on_common_practice_no_source,
    [("steadies", "")],
    [("steadies.legs", "down"), ("handbrake.lever", "off")],
    "steadies.down_without_handbrake",
    Damage,
    "common practice, no source"
);
never!(
    unknown_urea_may_refuse_to_restart_common_practice_no_source,
    [("urea_tank", "")],
    [("urea_tank.countdown", "at_zero"), MOVING],
    "urea_tank.run_out",
    Damage,
    "common practice, no source"
);
never!(
    urea_at_zero_without_restart_common_practice_no_source,
    [("urea_tank", "values = { at_zero = \"no_restart\" }")],
    [("urea_tank.countdown", "at_zero"), MOVING],
    "urea_tank.no_restart",
    Damage,
    "common practice, no source"
);
never!(
    urea_at_zero_with_a_speed_limit_common_practice_no_source,
    [("urea_tank", "values = { at_zero = \"speed_limit\" }")],
    [("urea_tank.countdown", "at_zero"), MOVING],
    "urea_tank.crawls",
    Damage,
    "common practice, no source"
);
never!(
    urea_is_filled_before_zero_common_practice_no_source,
    [("urea_tank", "")],
    [("urea_tank.countdown", "running"), MOVING],
    "urea_tank.running_out",
    Nuisance,
    "common practice, no source"
);
never!(
    pressures_are_recorded_before_the_road_common_practice_no_source,
    [("tyres", "")],
    [("tyres.pressures", "due"), MOVING],
    "tyres.not_recorded",
    Damage,
    "common practice, no source"
);
never!(
    no_snow_on_the_roof_on_the_road_common_practice_no_source,
    [("roof", "")],
    [("roof.snow", "lying"), MOVING],
    "roof.snow_on_the_road",
    Damage,
    "common practice, no source"
);
never!(
    the_awning_is_in_with_snow_common_practice_no_source,
    [("awning", "")],
    [("awning.cloth", "out"), ("awning.snow", "falling")],
    "awning.out_in_snow",
    Damage,
    "common practice, no source"
);
never!(
    the_awning_is_in_with_wind_common_practice_no_source,
    [("awning", "")],
    [("awning.cloth", "out"), ("pitch.wind", "strong")],
    "awning.out_in_wind",
    Danger,
    "common practice, no source"
);
never!(
    the_awning_is_in_with_nobody_at_home_common_practice_no_source,
    [("awning", "")],
    [("awning.cloth", "out"), ("awning.people", "away")],
    "awning.out_with_nobody_there",
    Damage,
    "common practice, no source"
);

/// The step comes out, and chocks are set, only with the handbrake on.
#[test]
fn what_stands_beside_the_vehicle_waits_for_the_handbrake_common_practice_no_source() {
    let vehicle = vehicle(&[("entrance_step", ""), ("chocks", ""), RAMPS]);
    let off = [("handbrake.lever", "off"), ("engine.running", "on")];
    for step in ["entrance_step.out", "chocks.set", "ramps.lay"] {
        let refusal = refused(&vehicle, step, &off);
        assert!(refusal.contains(&"handbrake.lever".to_owned()), "{step}: {refusal:?}");
        assert_eq!(refused(&vehicle, step, &[]), [""; 0], "{step}");
    }
}

/// Nothing in the catalogue promises that a load or a pressure is within the law, or computes one.
#[test]
fn never_legal_always_a_margin_common_practice_no_source() {
    let text = &Catalogue::built_in().unwrap().texts["en"];
    for kind in Catalogue::built_in().unwrap().kinds.values() {
        for step in &kind.moves {
            let caution = text.get(&format!("kind.{}.caution.{}", kind.id, step.id));
            assert!(!caution.unwrap_or_default().to_lowercase().contains("legal"), "{}", kind.id);
        }
    }
    for (path, said) in [
        ("tyres.clause.not_recorded", "measured, not guessed"),
        ("height_note.caution.write", "Add a margin"),
        ("tyres.caution.record", "weighed axle loads"),
    ] {
        assert!(words(path).contains(said), "{path}");
    }
}

says!(steadies_are_not_jacks_common_practice_no_source,
    "steadies.caution.wind_down": ["not jacks"]);
says!(chocks_on_ramps_and_slopes_with_handbrake_and_gear_common_practice_no_source,
    "chocks.caution.set": ["In gear too", "On ramps and on a slope always"],
    "handbrake.caution.pull": ["leave it in gear and set the chocks"]);
says!(everyone_is_belted_in_common_practice_no_source,
    "engine.caution.drive_off": ["Everyone belted in"]);
says!(urea_unknown_means_fill_before_zero_common_practice_no_source,
    "urea_tank.clause.running_out": ["before zero", "may refuse to start again"]);
says!(flues_vents_panel_and_roof_clear_of_snow_common_practice_no_source,
    "roof.move.clear_snow": ["flues, vents, panel"]);
says!(frozen_roof_lights_are_not_forced_common_practice_no_source,
    "roof_light.caution.shut": ["Frozen", "do not force it"],
    "roof.caution.clear_snow": ["Frozen roof lights: do not force them"]);
