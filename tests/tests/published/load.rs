//! Load: worked examples of statics, the rules of type approval and the load index of tyres.

use stowfast_core::reckon::Between;
use stowfast_core::reckon::load::{
    Loads, Mass, PERSON_KG, axle_kg, conventional_kg, least_payload_kg, payload_kg, tyre_kg,
};
use stowfast_tests::table::table;

/// kg: the tolerance of the worked examples, and of our own sums.
const PRINTED_KG: f64 = 0.01;
const SUM_KG: f64 = 0.001;

fn loads(front_kg: f64, rear_kg: f64, wheelbase_m: f64, masses: &[(f64, f64)]) -> [f64; 3] {
    let mass = |(kg, at_m): &(f64, f64)| Mass { kg: Between::exactly(*kg), at_m: *at_m };
    let masses: Vec<Mass> = masses.iter().map(mass).collect();
    let empty = Loads::of(Between::exactly(front_kg), Between::exactly(rear_kg));
    empty.with(&masses, wheelbase_m).each().map(Between::middle)
}

fn near(ours: f64, theirs: f64, kg: f64) {
    assert!((ours - theirs).abs() <= kg, "ours {ours}, theirs {theirs}");
}

/// Source: data of a physics page (places from the rear axle), with a wheelbase of 270 cm; 0.01 kg.
#[test]
fn five_masses_load_both_axles_by_their_moments() {
    let masses = [(1800.0, 135.0), (160.0, 205.0), (250.0, 60.0), (50.0, 145.0), (90.0, -60.0)];
    let from_front = masses.map(|(kg, cm)| (kg, (270.0 - cm) / 100.0));
    let [front, rear, _] = loads(0.0, 0.0, 2.7, &from_front);
    near(front, 1083.89, PRINTED_KG);
    near(rear, 1266.11, PRINTED_KG);
}

/// Source: data of a second page, in its own unit of length; 0.01.
#[test]
fn three_masses_load_both_axles_by_their_moments() {
    let [front, rear, _] = loads(0.0, 0.0, 120.0, &[(4200.0, 54.0), (600.0, 92.0), (450.0, 155.0)]);
    near(rear, 2931.25, PRINTED_KG);
    near(front, 2318.75, PRINTED_KG);
}

/// Source: statics; 0.001 kg.
#[test]
fn what_hangs_behind_the_rear_axle_lifts_the_front() {
    let [front, rear, _] = loads(0.0, 0.0, 3.8, &[(100.0, 4.7)]);
    near(rear, 123.684, SUM_KG);
    near(front, -23.684, SUM_KG);
    let [front, rear, _] = loads(0.0, 0.0, 4.035, &[(60.0, 5.535)]);
    near(rear, 82.305, SUM_KG);
    near(front, -22.305, SUM_KG);
    let [front, rear, _] = loads(0.0, 0.0, 3.8, &[(100.0, 1.9)]);
    near(front, 50.0, SUM_KG);
    near(rear, 50.0, SUM_KG);
}

/// Source: statics; 0.001 kg.
#[test]
fn a_loaded_vehicle_stands_on_its_axles_as_worked_out() {
    let carried =
        [(PERSON_KG, 1.0), (PERSON_KG, 1.0), (100.0, 2.5), (22.0, -0.2), (60.0, 5.2), (100.0, 4.6)];
    let [front, rear, total] = loads(1450.0, 1500.0, 3.8, &carried);
    near(front, 1574.737, SUM_KG);
    near(rear, 1807.263, SUM_KG);
    near(total, 3382.0, SUM_KG);
}

/// Source: Commission Regulation (EU) No 1230/2012, Annex I, Part A, 2.6.4.1.2; exact.
#[test]
fn the_least_payload_is_that_of_the_regulation() {
    let examples = [(4, 7.45, 114.5), (2, 5.99, 79.9), (4, 6.99, 109.9), (6, 7.45, 134.5)];
    for (seats, length_m, kg) in examples {
        near(least_payload_kg(seats, length_m), kg, 1e-9);
    }
}

/// Source: EN 1646-2, as a legal publisher's article on it has the rule (75 kg and 10 kg of effects for each
/// person, 10 kg for each metre), with the driver's 75 kg in running order; by hand, exact.
#[test]
fn people_and_their_effects_count_as_the_convention_has_it() {
    let examples = [(1, 5.0, 60.0), (2, 5.99, 154.9), (4, 6.99, 334.9), (4, 7.45, 339.5)];
    for (seats, length_m, kg) in examples {
        near(conventional_kg(seats, length_m), kg, 1e-9);
    }
    // The driver is counted once: with those 75 kg it is 85 kg for everybody, and the metres.
    near(conventional_kg(6, 7.45) + PERSON_KG, 6.0 * 85.0 + 74.5, 1e-9);
}

/// Source: arithmetic on Article 2 of the same; exact.
#[test]
fn what_is_left_for_luggage_is_what_is_permitted_less_all_the_rest() {
    near(payload_kg(3500.0, 2850.0, 120.0, 4), 305.0, 1e-9);
    near(payload_kg(3500.0, 3050.0, 90.0, 4), 135.0, 1e-9);
    assert!(payload_kg(3500.0, 2850.0, 120.0, 4) >= least_payload_kg(4, 6.99));
}

/// Source: standard load index of ISO 4000-1 as public pages print it; exact.
#[test]
fn a_tyre_carries_what_its_load_index_says() {
    let rows = table("tyre_load_index.csv").unwrap();
    assert_eq!(rows.len(), 22);
    for row in rows {
        let index =
            (0..=200_u32).find(|index| (f64::from(*index) - row["LI"]).abs() < 0.5).unwrap();
        assert_eq!(tyre_kg(index), Some(row["kg"]), "{index}");
    }
    // One page misprints this as 857.
    assert_eq!(tyre_kg(103), Some(875.0));
    assert_eq!(tyre_kg(0), None);
}

/// Source: the same table; exact.
#[test]
fn an_axle_carries_what_its_tyres_do() {
    assert_eq!(axle_kg(112, false), Some(2240.0));
    assert_eq!(axle_kg(113, false), Some(2.0 * 1150.0));
    assert_eq!(axle_kg(111, true), Some(4.0 * 1090.0));
}
