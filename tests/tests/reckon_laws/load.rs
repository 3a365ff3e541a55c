//! Axle loads balance, and the best change is the best there is.

use proptest::prelude::*;
use stowfast_core::reckon::Between;
use stowfast_core::reckon::load::{Change, Limits, Loads, Mass, best, within};

const LIMITS: Limits = Limits { front_kg: 1_800.0, rear_kg: 1_900.0, total_kg: 3_500.0 };

fn empty() -> Loads {
    Loads::of(Between::of(1_400.0, 1_450.0), Between::of(1_500.0, 1_560.0))
}

prop_compose! {
    fn a_mass()(kg in 0.0..300.0_f64, more in 0.0..100.0_f64, at_m in -1.0..7.0_f64) -> Mass {
        Mass { kg: Between::of(kg, kg + more), at_m }
    }
}

fn exact(mass: Mass) -> Mass {
    Mass { kg: Between::exactly(mass.kg.lower), ..mass }
}

fn worst(set: &[&Change], masses: &[Mass], wheelbase_m: f64) -> f64 {
    let margins = Change::all(set, empty(), masses, wheelbase_m).margins(&LIMITS);
    margins.each().into_iter().map(|margin| margin.lower).fold(f64::INFINITY, f64::min)
}

proptest! {
    #[test]
    fn axle_loads_sum_to_the_mass(masses in prop::collection::vec(a_mass(), 0..8), wheelbase_m in 2.5..5.5_f64) {
        let masses: Vec<_> = masses.into_iter().map(exact).collect();
        let none = Loads::of(Between::exactly(0.0), Between::exactly(0.0));
        let loads = none.with(&masses, wheelbase_m);
        let sum: f64 = masses.iter().map(|mass| mass.kg.lower).sum();
        prop_assert!((loads.front_kg.middle() + loads.rear_kg.middle() - sum).abs() < 1e-6);
        prop_assert!((loads.total_kg.middle() - sum).abs() < 1e-6);
    }

    #[test]
    fn a_mass_over_an_axle_loads_that_one_alone(kg in 0.0..500.0_f64, wheelbase_m in 2.5..5.5_f64) {
        let over = |at_m| empty().and(Mass { kg: Between::exactly(kg), at_m }, wheelbase_m);
        prop_assert_eq!(over(0.0).rear_kg, empty().rear_kg);
        prop_assert_eq!(over(wheelbase_m).front_kg, empty().front_kg);
    }

    #[test]
    fn in_whatever_order_it_is_loaded_it_stands_the_same(mut masses in prop::collection::vec(a_mass(), 0..8), wheelbase_m in 2.5..5.5_f64) {
        let there = empty().with(&masses, wheelbase_m).each();
        masses.reverse();
        for (one, other) in there.into_iter().zip(empty().with(&masses, wheelbase_m).each()) {
            prop_assert!((one.lower - other.lower).abs() < 1e-6 && (one.upper - other.upper).abs() < 1e-6);
        }
    }

    /// Between the axles; behind them the front one is lifted.
    #[test]
    fn margins_shrink_with_load(mass in a_mass(), share in 0.0..=1.0_f64, wheelbase_m in 2.5..5.5_f64) {
        let mass = Mass { at_m: share * wheelbase_m, ..mass };
        let before = empty().margins(&LIMITS).each();
        let after = empty().and(mass, wheelbase_m).margins(&LIMITS).each();
        for (before, after) in before.into_iter().zip(after) {
            prop_assert!(after.lower <= before.lower + 1e-9 && after.upper <= before.upper + 1e-9);
            prop_assert!(within(before) != Some(false) || within(after) == Some(false));
        }
    }

    /// Held against every set, written out.
    #[test]
    fn no_pair_of_changes_beats_the_best(masses in prop::collection::vec(a_mass(), 1..6), moved in prop::collection::vec((0..6_usize, -1.0..7.0_f64, 0.0..=1.0_f64), 0..7), wheelbase_m in 2.5..5.5_f64) {
        let change = |(thing, at_m, share): &(usize, f64, f64)| {
            let was = masses.get(*thing)?;
            let gives = vec![Mass { kg: was.kg * *share, at_m: *at_m }];
            Some(Change { thing: *thing, takes: Some(*thing), gives })
        };
        let changes: Vec<_> = moved.iter().filter_map(change).collect();
        let limits = &LIMITS;
        let found = best(&changes, 2, empty(), &masses, wheelbase_m, limits);
        let chosen: Vec<&Change> = found.iter().map(|at| &changes[*at]).collect();
        let reached = worst(&chosen, &masses, wheelbase_m);
        prop_assert!(chosen.len() < 2 || chosen[0].thing != chosen[1].thing);
        prop_assert!(reached >= worst(&[], &masses, wheelbase_m));
        for one in &changes {
            prop_assert!(reached >= worst(&[one], &masses, wheelbase_m));
            for other in changes.iter().filter(|other| other.thing != one.thing) {
                prop_assert!(reached >= worst(&[one, other], &masses, wheelbase_m) - 1e-9);
            }
        }
    }
}
