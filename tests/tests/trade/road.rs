//! What the road needs: each thing left as it should not be keeps the wheels still.

use crate::bench::{refused, vehicle};

/// Kind, the fact that keeps the wheels still, the clause that says so.
const LEFT: [(&str, &str, &str, &str); 38] = [
    ("entrance_step", "step", "out", "out_on_the_road"),
    ("roof_light", "leaf", "ajar", "open_on_the_road"),
    ("window", "leaf", "open", "open_on_the_road"),
    ("locker_door", "leaf", "shut", "open_on_the_road"),
    ("entrance_door", "leaf", "open", "open_on_the_road"),
    ("fill_hose", "hose", "connected", "connected_on_the_road"),
    ("waste_hose", "hose", "connected", "connected_on_the_road"),
    ("mains_lead", "coil", "uncoiled", "lead_on_the_road"),
    ("mains_lead", "vehicle_end", "in", "connector_on_the_road"),
    ("inlet_flap", "leaf", "open", "open_on_the_road"),
    ("aerial", "mast", "up", "up_on_the_road"),
    ("satellite_dish", "dish", "up", "up_on_the_road"),
    ("awning", "cloth", "out", "out_on_the_road"),
    ("drawers", "catch", "unlatched", "unlatched_on_the_road"),
    ("interior_door", "leaf", "loose", "loose_on_the_road"),
    ("shower_screen", "screen", "loose", "loose_on_the_road"),
    ("table", "top", "up", "loose_on_the_road"),
    ("television", "bracket", "out", "out_on_the_road"),
    ("drop_down_bed", "bed", "down", "down_on_the_road"),
    ("fixed_bed", "base", "raised", "base_up_on_the_road"),
    ("swivel_seat", "seat", "turned", "turned_on_the_road"),
    ("bench", "cushions", "bed", "bed_on_the_road"),
    ("hob", "lid", "up", "lid_up_on_the_road"),
    ("cab_blind", "blind", "drawn", "drawn_on_the_road"),
    ("insulated_screen", "screen", "fitted", "fitted_on_the_road"),
    ("bike_rack", "load", "loose", "loose_on_the_road"),
    ("tow_bar", "load", "dark", "dark_on_the_road"),
    ("loose_things", "things", "loose", "loose_on_the_road"),
    ("outside_things", "things", "out", "out_on_the_road"),
    ("outside_shower", "point", "in_use", "hose_on_the_road"),
    ("roof_box", "lid", "open", "open_on_the_road"),
    ("steadies", "legs", "down", "down_on_the_road"),
    ("chocks", "wedges", "set", "set_on_the_road"),
    ("extinguisher", "place", "out", "loose_on_the_road"),
    ("water_filler", "cap", "open", "open_on_the_road"),
    ("diesel_filler", "cap", "open", "open_on_the_road"),
    ("height_note", "note", "missing", "height_not_known"),
    ("road_wheels", "nuts", "due", "nuts_due"),
];

#[test]
fn each_thing_left_out_open_or_loose_keeps_the_wheels_still_common_practice_no_source() {
    for (kind, variable, setting, clause) in LEFT {
        let vehicle = vehicle(&[(kind, "")]);
        let walked = ("walk_round.walked", "done");
        let left = format!("{kind}.{variable}");
        let refusal = refused(&vehicle, "engine.drive_off", &[walked, (&left, setting)]);
        assert!(refusal.contains(&format!("{kind}.{clause}")), "{left}: {refusal:?}");
        let number = vehicle.variable(&left).unwrap();
        let mut others = vehicle.variables[number].settings.iter();
        let right = others.any(|other| {
            refused(&vehicle, "engine.drive_off", &[walked, (&left, other)]).is_empty()
        });
        assert!(right, "{kind} as it should be");
    }
}

/// Both by their own rule and by their source: no flame burns on the road.
#[test]
fn no_hob_oven_or_grill_is_lit_on_the_road_ni_1999_111() {
    for (kind, variable) in [("hob", "burners"), ("oven", "burner"), ("grill", "burner")] {
        let vehicle = vehicle(&[(kind, ""), ("gas_cylinder", "")]);
        let id = format!("{kind}.lit_on_the_road");
        let clause = vehicle.clauses.iter().find(|one| one.id == id).unwrap();
        assert!(clause.source.contains("1999, regulation 111"), "{}", clause.source);
        let lit = format!("{kind}.{variable}");
        let facts = [(lit.as_str(), "lit"), ("gas_cylinder.valve", "open")];
        assert!(refused(&vehicle, "engine.drive_off", &facts).contains(&id));
    }
}
