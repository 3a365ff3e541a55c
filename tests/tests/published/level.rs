//! Level: geometry worked out exactly, and what a motion sensor feels.

use stowfast_core::reckon::level::{Base, FRIDGE_DEG, Lean, Up, lifts_mm};

const BASE: Base = Base { wheelbase_mm: 3500.0, track_mm: 1800.0 };
/// Unit: mm.
const NEAR_MM: f64 = 0.05;
const GRAVITY: f64 = 9.80665;

/// One worked case.
type Case = ([f64; 2], [f64; 4], f64, [f64; 3]);

/// Pitch, roll; lifts front left, front right, rear left, rear right; tilt; what is felt.
const CASES: [Case; 3] = [
    ([1.0, 0.0], [0.0, 0.0, 61.08, 61.08], 1.0, [0.17115, 0.0, 9.80516]),
    ([0.0, 1.0], [0.0, 31.41, 0.0, 31.41], 1.0, [0.0, 0.17115, 9.80516]),
    ([2.0, 1.0], [0.0, 31.40, 122.15, 153.54], 2.236, [0.34225, 0.17105, 9.79918]),
];

/// Source: exact geometry; 0.05 mm, and half of the last digit printed of the rest.
#[test]
fn lifts_and_tilt_are_those_of_the_geometry() {
    for ([pitch_deg, roll_deg], lifts, tilt_deg, felt) in CASES {
        let up = Lean { pitch_deg, roll_deg }.up();
        for (ours, theirs) in lifts_mm(BASE, up).into_iter().zip(lifts) {
            assert!((ours - theirs).abs() <= NEAR_MM, "ours {ours}, theirs {theirs}");
        }
        assert!((up.tilt_deg() - tilt_deg).abs() <= 5e-4, "{}", up.tilt_deg());
        for (ours, theirs) in up.parts().into_iter().zip(felt) {
            assert!((ours * GRAVITY - theirs).abs() <= 1e-5, "ours {ours}, theirs {theirs}");
        }
    }
}

/// Source: the same, from what is felt; five digits of it stand for 0.0005 degrees at worst.
#[test]
fn what_is_felt_tells_how_the_vehicle_leans() {
    for ([pitch_deg, roll_deg], lifts, _, felt) in CASES {
        let up = Up::of(felt).unwrap();
        let lean = up.lean();
        assert!((lean.pitch_deg - pitch_deg).abs() <= 5e-4, "{lean:?}");
        assert!((lean.roll_deg - roll_deg).abs() <= 5e-4, "{lean:?}");
        for (ours, theirs) in lifts_mm(BASE, up).into_iter().zip(lifts) {
            assert!((ours - theirs).abs() <= NEAR_MM, "ours {ours}, theirs {theirs}");
        }
    }
}

/// Source: the small-angle form; 0.15 % up to 5 degrees.
#[test]
fn small_angles_are_as_good_as_straight() {
    for degrees in [0.5, 2.0, 5.0_f64] {
        let lifts = lifts_mm(BASE, Lean { pitch_deg: degrees, roll_deg: 0.0 }.up());
        let straight = BASE.wheelbase_mm * degrees.to_radians();
        assert!((lifts[2] / straight - 1.0).abs() <= 0.0015, "{degrees}");
    }
}

/// Source: a technical article that puts 3 degrees at 5 inches over 8 feet; 1 %.
#[test]
fn what_a_fridge_bears_is_five_inches_over_eight_feet() {
    assert!((96.0 * FRIDGE_DEG.to_radians().tan() / 5.0 - 1.0).abs() <= 0.01);
}
