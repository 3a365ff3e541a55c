use super::breaker::{Breaker, Curve, Steady, Surge};
use super::heat::minutes;
use super::lead::{Core, Lead, Loss};
use super::load::{Load, Nature, together};
use crate::reckon::Between;

fn heating(rated_w: f64) -> Load {
    Load { rated_w, nature: Nature::Heating, cycles: false }
}

#[test]
fn what_a_breaker_does_with_a_lasting_current_has_four_parts() {
    use Steady::{Carries, HoldsAnHour, MayTrip, Trips};
    let post = Breaker::of(10.0);
    let all = [9.9, 10.0, 10.1, 11.3, 11.4, 14.4, 14.5, 30.0].map(|current| post.steady(current));
    assert_eq!(all, [Carries, Carries, HoldsAnHour, HoldsAnHour, MayTrip, MayTrip, Trips, Trips]);
    assert_eq!(post.steady(f64::NAN), Trips, "what is no number is never said to hold");
}

#[test]
fn a_surge_is_judged_by_the_type_or_by_all_three() {
    let surge = |curve, peak_a| Breaker { rated_a: 6.0, curve }.surge(Between::exactly(peak_a));
    assert_eq!(surge(Some(Curve::B), 17.0), Surge::Holds);
    assert_eq!(surge(Some(Curve::B), 20.0), Surge::MayTrip);
    assert_eq!(surge(Some(Curve::B), 31.0), Surge::Trips);
    assert_eq!(surge(Some(Curve::C), 20.0), Surge::Holds);
    assert_eq!(surge(None, 20.0), Surge::MayTrip, "it may be B");
    assert_eq!(surge(None, 31.0), Surge::MayTrip, "it may be D");
    assert_eq!(surge(None, 121.0), Surge::Trips, "whichever it is");
}

/// 2,000 W on 6 A are 8.7 A, 1.45 times: on weak mains it may hold, on strong it trips.
#[test]
fn mains_and_plate_are_bands_so_a_verdict_has_two_ends() {
    let drawn = together(&[heating(2_000.0)]);
    assert_eq!(Breaker::of(6.0).steady_between(drawn.current), (Steady::MayTrip, Steady::Trips));
    let small = together(&[heating(1_350.0)]);
    let (_, worse) = Breaker::of(6.0).steady_between(small.current);
    assert_eq!(worse, Steady::HoldsAnHour, "6.78 A at 253 V and 5 % above the plate");
}

#[test]
fn a_heater_draws_more_on_strong_mains_and_a_power_supply_on_weak() {
    let current = |nature| Load { rated_w: 230.0, nature, cycles: false }.current_a();
    assert!((current(Nature::Heating).upper - 1.05 * 1.1).abs() < 1e-9);
    assert!((current(Nature::Supply).upper - 1.2 / 0.9).abs() < 1e-9);
    let fridge = Load { cycles: true, ..heating(230.0) };
    assert!(fridge.current_a().lower.abs() < 1e-12, "at times it is off");
}

#[test]
fn a_motor_that_starts_counts_with_its_surge_beside_what_runs() {
    let vacuum = Load { rated_w: 700.0, nature: Nature::Motor, cycles: false };
    let both = together(&[heating(800.0), vacuum]);
    assert_eq!(Breaker::of(10.0).surge(both.peak), Surge::MayTrip);
    assert_eq!(Breaker::of(10.0).surge(together(&[heating(800.0)]).peak), Surge::Holds);
}

#[test]
fn a_lead_that_is_not_made_is_none() {
    assert!(Lead::new(Core::Flexible, 25.0, 2.0).is_none());
    assert!(Lead::new(Core::Flexible, 0.0, 2.5).is_none());
    assert!(Lead::new(Core::Flexible, f64::NAN, 2.5).is_none());
    assert!(Lead::new(Core::Fixed, 25.0, 0.75).is_none());
    let lead = |length_m, section| Lead::new(Core::Flexible, length_m, section).unwrap();
    assert!(lead(50.0, 2.5).is_joined() && !lead(27.0, 2.5).is_joined());
    assert!(lead(25.0, 1.5).is_thin() && !lead(25.0, 2.5).is_thin());
}

#[test]
fn the_band_of_a_lead_holds_every_temperature_of_its_core() {
    let lead = Lead::new(Core::Flexible, 25.0, 2.5).unwrap();
    let band = lead.lost_v(Between::exactly(16.0));
    for core_c in [0.0, 20.0, 60.0] {
        assert!(band.holds(lead.carrying(230.0, 16.0, core_c).lost_v));
    }
}

#[test]
fn more_than_three_per_cent_is_too_much_for_lamps_and_more_than_five_for_all() {
    assert_eq!(
        [3.0, 3.1, 5.0, 5.1].map(Loss::of),
        [Loss::Fine, Loss::AboveLighting, Loss::AboveLighting, Loss::AboveAll]
    );
}

/// 10 L from 15 to 60 °C at 750 W: 41.86 min at exactly that power.
#[test]
fn low_power_takes_longer_and_the_band_holds_the_plain_sum() {
    let from = Between::exactly(15.0);
    let low = minutes(10.0, from, 60.0, 750.0).unwrap();
    let high = minutes(10.0, from, 60.0, 1_850.0).unwrap();
    assert!(low.holds(41.86) && low.lower > high.lower && low.upper > high.upper);
    assert!(minutes(10.0, Between::exactly(70.0), 60.0, 750.0).unwrap().upper.abs() < 1e-12);
    assert_eq!(minutes(10.0, from, 60.0, 0.0), None);
}
