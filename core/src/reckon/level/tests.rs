use super::{Base, Lean, Smooth, Up, best, lifts_between_mm, lifts_mm, mounted};

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
