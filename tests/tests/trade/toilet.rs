//! Toilet.

use crate::bench::{planned, refused, vehicle};

const TOILET: (&str, &str) = ("cassette_toilet", "");
const MOVING: (&str, &str) = ("engine.wheels", "moving");

never!(
    the_cassette_comes_out_only_with_its_blade_shut_common_practice_no_source,
    [TOILET],
    [("cassette_toilet.cassette", "out"), ("cassette_toilet.blade", "open")],
    "cassette_toilet.out_with_blade_open",
    Damage,
    "common practice, no source"
);
never!(
    locked_in_on_the_road_common_practice_no_source,
    [TOILET],
    [("cassette_toilet.cassette", "out"), MOVING],
    "cassette_toilet.out_on_the_road",
    Damage,
    "common practice, no source"
);
never!(
    blade_shut_on_the_road_common_practice_no_source,
    [TOILET],
    [("cassette_toilet.blade", "open"), MOVING],
    "cassette_toilet.blade_open_on_the_road",
    Damage,
    "common practice, no source"
);
never!(
    bowl_dry_on_the_road_common_practice_no_source,
    [TOILET],
    [("cassette_toilet.bowl", "wet"), MOVING],
    "cassette_toilet.bowl_wet_on_the_road",
    Damage,
    "common practice, no source"
);

#[test]
fn additive_goes_into_an_emptied_cassette_common_practice_no_source() {
    let vehicle = vehicle(&[TOILET]);
    let full = [("cassette_toilet.cassette", "out"), ("cassette_toilet.level", "full")];
    assert_eq!(refused(&vehicle, "cassette_toilet.add_dose", &full), ["cassette_toilet.level"]);
}

#[test]
fn the_cassette_is_emptied_where_the_place_has_the_point_common_practice_no_source() {
    let vehicle = vehicle(&[TOILET]);
    let empties = |point: &str| {
        let facts = [("cassette_toilet.level", "part"), ("pitch.toilet_point", point)];
        let ids = planned(&vehicle, "ready_to_drive", &facts);
        ids.iter().any(|id| id == "cassette_toilet.empty")
    };
    assert!(empties("here"));
    assert!(!empties("none"));
}

says!(rinsed_vented_and_a_little_water_in_the_bowl_common_practice_no_source,
    "cassette_toilet.move.empty": ["rinse"],
    "cassette_toilet.caution.empty": ["vent button"],
    "cassette_toilet.move.wet_bowl": ["a little water into the bowl"]);
says!(the_lamp_means_little_room_left_common_practice_no_source,
    "cassette_toilet.sign.level": ["Lit: little room is left"]);
says!(the_flush_tank_is_drained_in_frost_common_practice_no_source,
    "cassette_toilet.caution.empty_flush_tank": ["Water left in tank and pump freezes"]);
