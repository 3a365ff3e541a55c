//! Lifts balance, no way to use the ramps beats the best, and a phone shows the vehicle's lean however it
//! is mounted.

use proptest::prelude::*;
use stowfast_core::reckon::level::{
    Base, Lean, Phone, Rest, Sight, Smooth, Up, best, lifts_between_mm, lifts_mm, mounted,
    of_phone, settled,
};

/// What a phone feels that lies straight in a vehicle that leans so. Unit: m/s².
fn felt(up: Up) -> [f64; 3] {
    let [ahead, left, over] = up.parts().map(|part| part * 9.80665);
    [-left, ahead, over]
}

/// How the vehicle leans after so many looks at the same.
fn seen(level: Option<Rest>, felt: [f64; 3]) -> Option<Lean> {
    let mut phone = Phone::new(level);
    let Some(Sight::Still { up, .. }) = (0..50).map(|_| phone.feel(felt)).last() else {
        return None;
    };
    Some(up.lean())
}

prop_compose! {
    fn a_base()(wheelbase_mm in 2_500.0..5_500.0_f64, track_mm in 1_400.0..2_200.0_f64) -> Base {
        Base { wheelbase_mm, track_mm }
    }
}

prop_compose! {
    fn a_lean()(pitch_deg in -12.0..12.0_f64, roll_deg in -12.0..12.0_f64) -> Lean {
        Lean { pitch_deg, roll_deg }
    }
}

proptest! {
    #[test]
    fn one_wheel_lacks_nothing_and_both_diagonals_lack_the_same(base in a_base(), lean in a_lean()) {
        let [fl, fr, rl, rr] = lifts_mm(base, lean.up());
        prop_assert!([fl, fr, rl, rr].iter().all(|lift| *lift >= 0.0));
        prop_assert!([fl, fr, rl, rr].contains(&0.0));
        prop_assert!((fl + rr - fr - rl).abs() < 1e-6);
    }

    #[test]
    fn a_vehicle_on_its_lifts_stands_level(base in a_base(), lean in a_lean()) {
        let up = lean.up();
        prop_assert!(settled(base, up, lifts_mm(base, up)).tilt_deg() < 1e-6);
    }

    /// Seen in a mirror, left and right change places.
    #[test]
    fn a_mirror_swaps_left_and_right(base in a_base(), lean in a_lean()) {
        let [fl, fr, rl, rr] = lifts_mm(base, lean.up());
        let mirrored = lifts_mm(base, Lean { roll_deg: -lean.roll_deg, ..lean }.up());
        for (one, other) in [fr, fl, rr, rl].into_iter().zip(mirrored) {
            prop_assert!((one - other).abs() < 1e-9);
        }
    }

    #[test]
    fn what_is_read_within_its_error_lies_within_the_band(base in a_base(), lean in a_lean(), error in 0.0..1.0_f64, pitch in -1.0..=1.0_f64, roll in -1.0..=1.0_f64) {
        let bands = lifts_between_mm(base, lean, error);
        let true_lean = Lean { pitch_deg: lean.pitch_deg + pitch * error, roll_deg: lean.roll_deg + roll * error };
        for (band, lift) in bands.into_iter().zip(lifts_mm(base, true_lean.up())) {
            prop_assert!(0.0 <= band.lower && band.lower - 0.01 <= lift && lift <= band.upper + 0.01);
        }
    }

    /// Held against every way, one by one.
    #[test]
    fn no_way_to_use_the_ramps_beats_the_best(base in a_base(), lean in a_lean(), mut steps in prop::collection::vec(10.0..200.0_f64, 0..4), ramps in 0..=4_usize) {
        let up = lean.up();
        let found = best(base, up, &steps, ramps);
        prop_assert!(found.tilt_deg <= up.tilt_deg());
        prop_assert!((settled(base, up, found.under_mm).tilt_deg() - found.tilt_deg).abs() < 1e-9);
        let heights: Vec<f64> = std::iter::once(0.0).chain(steps.iter().copied()).collect();
        let pairs = || heights.iter().flat_map(|one| heights.iter().map(|other| [*one, *other]));
        let ways = pairs().flat_map(|[fl, fr]| pairs().map(move |[rl, rr]| [fl, fr, rl, rr]));
        for under in ways {
            if under.iter().filter(|one| **one > 0.0).count() <= ramps {
                prop_assert!(found.tilt_deg <= settled(base, up, under).tilt_deg() + 1e-9);
            }
        }
        steps.reverse();
        prop_assert!((best(base, up, &steps, ramps).tilt_deg - found.tilt_deg).abs() < 1e-12);
    }

    #[test]
    fn no_look_makes_it_panic(felt in prop::array::uniform3(prop::num::f64::ANY), then in prop::array::uniform3(prop::num::f64::ANY)) {
        let smooth = Smooth::default().then(felt).then(then);
        if let Some(up) = smooth.up() {
            prop_assert!(up.parts().iter().all(|part| part.is_finite()));
            prop_assert!((0.0..=180.0).contains(&up.tilt_deg()));
        }
    }

    /// Turning keeps the angle between two ways.
    #[test]
    fn a_mounting_turns_and_does_not_bend(one in a_lean(), other in a_lean(), level in a_lean()) {
        let dot = |a: Up, b: Up| a.parts().iter().zip(b.parts()).map(|(a, b)| a * b).sum::<f64>();
        let (one, other, level) = (one.up(), other.up(), level.up());
        let (a, b) = (mounted(one, level).unwrap(), mounted(other, level).unwrap());
        prop_assert!((dot(a, b) - dot(one, other)).abs() < 1e-9);
        prop_assert!(mounted(level, level).unwrap().tilt_deg() < 1e-4);
    }

    #[test]
    fn the_axes_of_the_phone_are_those_of_the_vehicle_and_back(lean in a_lean()) {
        let up = lean.up();
        let back = Up::of(of_phone(felt(up))).unwrap();
        prop_assert!(up.parts().iter().zip(back.parts()).all(|(one, other)| (one - other).abs() < 1e-12));
        let seen = seen(None, felt(up)).unwrap();
        prop_assert!((seen.pitch_deg - lean.pitch_deg).abs() < 1e-9 && (seen.roll_deg - lean.roll_deg).abs() < 1e-9);
    }

    /// A phone that lies askew by `mount` feels what is level as `mount`; set there, it shows level as level
    /// and any lean with its true tilt.
    #[test]
    fn setting_it_removes_any_mounting(mount in a_lean(), lean in a_lean()) {
        let level = Rest::of(mount.up());
        let stands = seen(Some(level), felt(mount.up())).unwrap();
        prop_assert!(stands.up().tilt_deg() < 1e-4, "{stands:?}");
        // Turned back the other way: what the phone feels where the vehicle leans so.
        let [x, y, z] = mount.up().parts();
        let lies = mounted(lean.up(), Up::of([-x, -y, z]).unwrap()).unwrap();
        let mut phone = Phone::new(Some(level));
        let Sight::Still { up, .. } = phone.feel(felt(lies)) else { panic!("it lay still") };
        let seen = up.lean();
        prop_assert!((seen.pitch_deg - lean.pitch_deg).abs() < 1e-6, "{seen:?} {lean:?}");
        prop_assert!((seen.roll_deg - lean.roll_deg).abs() < 1e-6, "{seen:?} {lean:?}");
    }

    /// Of a sensor that is out by up to 0.05 m/s² in each direction at each look, whatever was shown before.
    #[test]
    fn what_noise_does_lies_within_the_band(base in a_base(), lean in (-1.0..1.0_f64, -1.0..1.0_f64), before in -0.3..0.3_f64, noise in prop::collection::vec(prop::array::uniform3(-0.05..0.05_f64), 60..150)) {
        let lean = Lean { pitch_deg: lean.0, roll_deg: lean.1 };
        let mut phone = Phone::new(None);
        phone.feel(felt(Lean { pitch_deg: lean.pitch_deg + before, ..lean }.up()));
        let [x, y, z] = felt(lean.up());
        for (look, [dx, dy, dz]) in noise.into_iter().enumerate() {
            let Sight::Still { up, .. } = phone.feel([x + dx, y + dy, z + dz]) else { panic!("it lay still") };
            let lifts = lifts_mm(base, up);
            prop_assert!(lifts.iter().all(|lift| *lift >= 0.0) && lifts.contains(&0.0));
            let bands = lifts_between_mm(base, up.lean(), 0.4);
            for (band, lift) in bands.into_iter().zip(lifts_mm(base, lean.up())) {
                let within = band.lower - 0.01 <= lift && lift <= band.upper + 0.01;
                prop_assert!(look < 40 || within, "{band:?} {lift}");
            }
        }
    }

    #[test]
    fn a_phone_takes_whatever_is_felt(looks in prop::collection::vec(prop::array::uniform3(prop::num::f64::ANY), 1..30)) {
        let mut phone = Phone::new(None);
        for look in looks {
            if let Sight::Still { up, lies } = phone.feel(look) {
                prop_assert!(up.parts().iter().chain(&lies.parts()).all(|part| part.is_finite()));
            }
        }
    }
}
