use super::{Between, Change, Limits, Loads, Mass, best, within};

const WHEELBASE_M: f64 = 4.0;
const LIMITS: Limits = Limits { front_kg: 1_850.0, rear_kg: 2_000.0, total_kg: 3_500.0 };

fn exactly(kg: f64, at_m: f64) -> Mass {
    Mass { kg: Between::exactly(kg), at_m }
}

fn empty() -> Loads {
    Loads::of(Between::exactly(1_500.0), Between::exactly(1_500.0))
}

/// What goes, and what comes in its place.
fn change(thing: usize, gives: Vec<Mass>) -> Change {
    Change { thing, takes: Some(thing), gives }
}

fn find(changes: &[Change], most: usize, masses: &[Mass]) -> Vec<usize> {
    best(changes, most, empty(), masses, WHEELBASE_M, &LIMITS)
}

#[test]
fn what_is_over_is_told_from_what_may_be() {
    assert_eq!(within(Between::of(0.0, 10.0)), Some(true));
    assert_eq!(within(Between::of(-5.0, 10.0)), None);
    assert_eq!(within(Between::of(-5.0, -1.0)), Some(false));
}

/// The rear axle is over, the vehicle is not: what stands behind is moved forward.
#[test]
fn the_worst_axle_chooses_what_is_moved() {
    let masses = [exactly(300.0, 5.5), exactly(80.0, 1.0)];
    let forward = change(0, vec![exactly(300.0, 2.0)]);
    let left = change(1, Vec::new());
    assert_eq!(find(&[left.clone(), forward.clone()], 1, &masses), [1]);
    assert_eq!(find(&[left, forward], 2, &masses), [0, 1]);
}

/// A tank that may be full: emptying it takes away the doubt as well.
#[test]
fn emptying_what_may_be_full_helps_by_all_of_it() {
    let tank = Mass { kg: Between::of(0.0, 90.0), at_m: 4.0 };
    let masses = [tank, exactly(50.0, 4.0), exactly(450.0, 4.0)];
    let changes = [change(1, Vec::new()), change(0, Vec::new())];
    assert_eq!(find(&changes, 1, &masses), [1]);
}

#[test]
fn one_thing_is_not_changed_twice_and_what_does_not_help_is_left() {
    let masses = [exactly(100.0, 1.0)];
    let less = change(0, vec![exactly(20.0, 1.0)]);
    let none = change(0, Vec::new());
    assert_eq!(find(&[less.clone(), none], 2, &masses), [1]);
    assert_eq!(find(&[change(0, vec![exactly(200.0, 1.0)])], 2, &masses), [0; 0]);
}

/// On a weighbridge no mass is known by itself: what goes is taken off what was weighed.
#[test]
fn what_was_weighed_is_lightened_by_what_is_taken_out() {
    let bikes = Change { thing: 0, takes: None, gives: vec![exactly(-60.0, 5.0)] };
    let loads = Change::all(&[&bikes], empty(), &[], WHEELBASE_M);
    assert_eq!(loads.total_kg, Between::exactly(2_940.0));
    assert_eq!(loads.rear_kg, Between::exactly(1_425.0));
}
