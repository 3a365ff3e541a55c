use super::{
    Base, Lean, Phone, Rest, Sight, Smooth, Up, best, lifts_between_mm, lifts_mm, mounted, of_phone,
};

const BASE: Base = Base { wheelbase_mm: 3500.0, track_mm: 1800.0 };

fn up(pitch_deg: f64, roll_deg: f64) -> Up {
    Lean { pitch_deg, roll_deg }.up()
}

#[test]
fn what_is_felt_and_what_leans_are_one() {
    for (pitch, roll) in [(0.0, 0.0), (3.0, -2.0), (-20.0, 35.0)] {
        let lean = up(pitch, roll).lean();
        assert!((lean.pitch_deg - pitch).abs() < 1e-9 && (lean.roll_deg - roll).abs() < 1e-9);
    }
    assert_eq!(Up::of([0.0; 3]), None);
    assert_eq!(Up::of([f64::NAN, 0.0, 1.0]), None);
}

#[test]
fn an_instrument_that_is_mounted_askew_shows_level_as_level() {
    let askew = up(7.0, -4.0);
    assert!(mounted(askew, askew).is_some_and(|up| up.tilt_deg() < 1e-6));
    assert_eq!(mounted(askew, up(0.0, 0.0)).map(|up| up.lean().pitch_deg.round()), Some(7.0));
    assert_eq!(Up::of([0.0, 0.0, -1.0]).and_then(|down| mounted(askew, down)), None);
}

#[test]
fn a_jolt_counts_a_fifth_and_fades() {
    let still = Smooth::default().then([0.0, 0.0, 10.0]);
    let jolted = still.then([10.0, 0.0, 10.0]);
    assert!(jolted.up().is_some_and(|up| (up.lean().pitch_deg - 11.3099).abs() < 1e-3));
    let later = (0..30).fold(jolted, |felt, _| felt.then([0.0, 0.0, 10.0]));
    assert!(later.up().is_some_and(|up| up.tilt_deg() < 0.02));
    assert_eq!(jolted.then([f64::INFINITY, 0.0, 0.0]), jolted);
    assert_eq!(Smooth::default().up(), None);
}

#[test]
fn both_low_wheels_go_on_the_step_that_fits() {
    let stand = best(BASE, up(1.0, 0.0), &[30.0, 60.0, 100.0], 2);
    assert_eq!(format!("{:?}", stand.under_mm), "[0.0, 0.0, 60.0, 60.0]");
    assert!(stand.tilt_deg < 0.05, "{stand:?}");
    assert!(best(BASE, up(0.0, 0.0), &[30.0], 2).under_mm.iter().all(|mm| *mm <= 0.0));
    assert!(best(BASE, up(4.0, 0.0), &[30.0], 0).under_mm.iter().all(|mm| *mm <= 0.0));
}

#[test]
fn what_may_be_misread_holds_what_is_true() {
    for (pitch, roll) in [(1.2, 0.4), (0.1, -0.1), (-3.0, 2.0)] {
        let lean = Lean { pitch_deg: pitch, roll_deg: roll };
        let bands = lifts_between_mm(BASE, lean, 0.3);
        for (dp, dr) in [(0.0, 0.0), (0.3, -0.3), (-0.2, 0.1), (0.05, 0.25)] {
            let lifts = lifts_mm(BASE, up(pitch + dp, roll + dr));
            for (band, lift) in bands.iter().zip(lifts) {
                assert!(band.lower - 1e-6 <= lift && lift <= band.upper + 1e-6, "{band:?} {lift}");
            }
        }
    }
}

/// A phone with its screen up whose edge is lifted, as its sensor feels it. Unit: m/s².
fn tipped(right_up: f64, top_up: f64) -> [f64; 3] {
    [right_up, top_up, 9.7]
}

#[test]
fn a_phone_with_its_left_side_down_leans_left_down_and_with_its_top_edge_up_nose_up() {
    let lean = |felt| Up::of(of_phone(felt)).map(Up::lean);
    assert!(lean(tipped(1.0, 0.0)).is_some_and(|lean| lean.roll_deg < -5.0));
    assert!(lean(tipped(-1.0, 0.0)).is_some_and(|lean| lean.roll_deg > 5.0));
    assert!(lean(tipped(0.0, 1.0)).is_some_and(|lean| lean.pitch_deg > 5.0));
    assert!(lean(tipped(0.0, -1.0)).is_some_and(|lean| lean.pitch_deg < -5.0));
    assert_eq!(lean([0.0, 0.0, 9.81]).map(|lean| lean.pitch_deg.abs() < 1e-9), Some(true));
}

#[test]
fn a_phone_says_how_it_is_held() {
    let one = |felt| Phone::new(None).feel(felt);
    assert!(matches!(one([0.1, -0.2, 9.8]), Sight::Still { .. }));
    assert_eq!(one([0.0, 0.0, -9.8]), Sight::FaceDown);
    assert_eq!(one([0.0, 9.8, 0.3]), Sight::Steep);
    assert_eq!(one([0.0, 0.0, 11.0]), Sight::Shaken);
    assert_eq!(one([0.0, 0.0, 0.0]), Sight::Shaken);
    assert_eq!(one([f64::NAN, 0.0, 9.8]), Sight::Broken);
    assert_eq!(one([0.0, f64::INFINITY, 9.8]), Sight::Broken);
}

#[test]
fn after_a_jolt_it_is_read_again_once_it_has_lain_still() {
    let mut phone = Phone::new(None);
    phone.feel([0.0, 0.0, 9.8]);
    assert_eq!(phone.feel([2.0, 0.0, 9.8]), Sight::Shaken);
    let then: Vec<_> = (0..8).map(|_| phone.feel([0.0, 0.0, 9.8])).collect();
    assert_eq!(then.iter().filter(|sight| **sight == Sight::Shaken).count(), 7);
    let Some(Sight::Still { up, .. }) = then.last() else { panic!("{then:?}") };
    assert!(up.tilt_deg() < 1e-9, "nothing of the jolt is left: {up:?}");
}

#[test]
fn what_twitches_less_than_a_tenth_of_a_degree_is_not_shown() {
    let mut phone = Phone::new(None);
    let mut shown = |x: f64| match phone.feel([x, 0.0, 9.8]) {
        Sight::Still { up, .. } => up,
        other => panic!("{other:?}"),
    };
    let first = shown(0.0);
    assert!((0..20).all(|_| shown(0.015) == first));
    assert!((0..20).any(|_| shown(0.03) != first));
}

#[test]
fn a_phone_that_was_set_on_its_face_is_not_believed() {
    assert_eq!(Rest { ahead_deg: 10.0, left_deg: 10.0 }.up(), None);
    let rest = Rest::of(up(3.0, -2.0));
    let back = rest.up().map(Up::lean).unwrap();
    assert!((back.pitch_deg - 3.0).abs() < 1e-9 && (back.roll_deg + 2.0).abs() < 1e-9);
}
