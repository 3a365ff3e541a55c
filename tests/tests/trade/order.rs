//! Facts about the order of a plan, held against the real planner from several starts.

use crate::bench::{in_order, planned, vehicle};
use stowfast_core::vehicle::Vehicle;

const HOOK_UP: [&str; 5] =
    ["mains_lead", "main_switch", "inlet_flap", "boiler", "fridge_three_way"];
const HOOKED_UP: [(&str, &str); 7] = [
    ("post.supply", "live"),
    ("mains_lead.coil", "uncoiled"),
    ("mains_lead.vehicle_end", "in"),
    ("mains_lead.post_end", "in"),
    ("inlet_flap.leaf", "open"),
    ("main_switch.lever", "on"),
    ("main_switch.rcd", "tested"),
];

fn fitted(kinds: &[&str]) -> Vehicle {
    vehicle(&kinds.iter().map(|kind| (*kind, "")).collect::<Vec<_>>())
}

/// Lead looked over and uncoiled, main switch off, connector, plug, post, main switch, RCD.
#[test]
fn connecting_keeps_the_published_order_from_every_start_bs_7671_721() {
    let vehicle = fitted(&HOOK_UP);
    let arrived = [("post.supply", "live"), ("post.switch", "off")];
    let whole = [
        "mains_lead.uncoil",
        "main_switch.switch_off",
        "mains_lead.connect_vehicle",
        "mains_lead.plug_in",
        "post.switch_on",
        "main_switch.switch_on",
        "main_switch.test_rcd",
    ];
    let starts: [&[(&str, &str)]; 4] = [
        &[("main_switch.lever", "off")],
        &[("main_switch.lever", "on")],
        &[("main_switch.lever", "off"), ("mains_lead.coil", "uncoiled")],
        &[
            ("main_switch.lever", "on"),
            ("fridge_three_way.selector", "dc"),
            ("engine.running", "on"),
        ],
    ];
    for start in starts {
        let ids = planned(&vehicle, "pitched_hookup", &[&arrived, start].concat());
        let here: Vec<&str> =
            whole.into_iter().filter(|id| ids.iter().any(|one| one == id)).collect();
        assert!(here.len() >= 5, "{ids:?}");
        let free = ["mains_lead.uncoil", "main_switch.switch_off"];
        in_order(&ids, &here.iter().copied().filter(|id| !free.contains(id)).collect::<Vec<_>>());
        let at = |id: &str| ids.iter().position(|one| one == id);
        let connector = at("mains_lead.connect_vehicle").unwrap();
        free.into_iter().filter_map(at).for_each(|place| assert!(place < connector, "{ids:?}"));
        let test = at("main_switch.test_rcd").unwrap();
        let loads = ["fridge_three_way.set_mains", "boiler.heat_electric"];
        loads.into_iter().filter_map(at).for_each(|load| assert!(test < load, "{ids:?}"));
    }
}

/// The mirror of it: loads, main switch, post, plug, connector, flap; the lead when both are out.
#[test]
fn leaving_is_the_mirror_from_every_start_bs_7671_721() {
    let vehicle = fitted(&HOOK_UP);
    let starts: [&[(&str, &str)]; 4] = [
        &[],
        &[("boiler.heat", "electric"), ("boiler.water", "full"), ("boiler.cover", "off")],
        &[("fridge_three_way.selector", "mains")],
        &[("post.switch", "off")],
    ];
    for start in starts {
        let ids = planned(&vehicle, "ready_to_drive", &[&HOOKED_UP, start].concat());
        let order = [
            "main_switch.switch_off",
            "mains_lead.unplug",
            "mains_lead.disconnect_vehicle",
            "walk_round.walk",
        ];
        in_order(&ids, &order);
        let at = |id: &str| ids.iter().position(|one| one == id);
        let out = at("mains_lead.disconnect_vehicle").unwrap();
        for later in ["inlet_flap.shut", "mains_lead.stow"] {
            assert!(out < at(later).unwrap(), "{later}: {ids:?}");
        }
        let main = at("main_switch.switch_off").unwrap();
        for load in ["boiler.switch_off", "fridge_three_way.set_dc", "fridge_three_way.set_off"] {
            assert!(at(load).is_none_or(|place| place < main), "{load}: {ids:?}");
        }
        if let Some(post) = at("post.switch_off") {
            assert!(main < post && post < at("mains_lead.unplug").unwrap(), "{ids:?}");
        }
        assert_eq!(ids.last().unwrap(), "walk_round.walk", "the last step is a walk round");
    }
}

/// On sloping ground, from several starts: what would be torn or run over is in first; then the
/// ramps; only then chocks, hook-up and step.
#[test]
fn ramps_come_before_step_steadies_hook_up_and_awning_common_practice_no_source() {
    let vehicle = fitted(&[
        "ramps",
        "chocks",
        "entrance_step",
        "steadies",
        "mains_lead",
        "main_switch",
        "awning",
    ]);
    let slope = [("pitch.ground", "sloping"), ("post.supply", "live"), ("post.switch", "off")];
    let starts: [&[(&str, &str)]; 5] = [
        &[],
        &[("entrance_step.step", "out")],
        &[("steadies.legs", "down")],
        &[("awning.cloth", "out")],
        &[("mains_lead.coil", "uncoiled"), ("chocks.wedges", "set")],
    ];
    for start in starts {
        let ids = planned(&vehicle, "pitched_hookup", &[&slope, start].concat());
        let up = ids.iter().position(|id| id == "ramps.drive_up").unwrap();
        let last = |id: &str| ids.iter().rposition(|one| one == id);
        for after in ["chocks.set", "entrance_step.out", "mains_lead.uncoil", "mains_lead.plug_in"]
        {
            assert!(up < last(after).unwrap(), "{after}: {ids:?}");
        }
        for after in ["steadies.wind_down", "awning.wind_out"] {
            assert!(last(after).is_none_or(|place| up < place), "{after}: {ids:?}");
        }
        let first = |id: &str| ids.iter().position(|one| one == id);
        for before in ["entrance_step.in", "steadies.wind_up", "awning.wind_in", "chocks.stow"] {
            assert!(first(before).is_none_or(|place| place < up), "{before}: {ids:?}");
        }
    }
}

/// Chocks away, step in, off the ramps, ramps stowed; and only then the last look.
#[test]
fn off_the_ramps_before_the_last_look_common_practice_no_source() {
    let vehicle = fitted(&["ramps", "chocks", "entrance_step", "steadies"]);
    let on = [("ramps.under", "on"), ("ramps.boards", "laid"), ("chocks.wedges", "set")];
    for start in [&[][..], &[("entrance_step.step", "out")], &[("steadies.legs", "down")]] {
        let ids = planned(&vehicle, "ready_to_drive", &[&on, start].concat());
        in_order(&ids, &["chocks.stow", "ramps.drive_down", "ramps.stow", "walk_round.walk"]);
        let down = ids.iter().position(|id| id == "ramps.drive_down").unwrap();
        for before in ["entrance_step.in", "steadies.wind_up"] {
            let at = ids.iter().position(|id| id == before);
            assert!(at.is_none_or(|place| place < down), "{before}: {ids:?}");
        }
        assert_eq!(ids.last().unwrap(), "walk_round.walk");
    }
}

#[test]
fn the_flue_cover_goes_back_on_once_the_burner_is_off_common_practice_no_source() {
    let vehicle = fitted(&["boiler"]);
    let lit = [("boiler.heat", "gas"), ("boiler.cover", "off"), ("boiler.water", "full")];
    let ids = planned(&vehicle, "ready_to_drive", &lit);
    in_order(&ids, &["boiler.switch_off", "boiler.cover_on"]);
}
