//! Laws of water ahead: mass balance, more people use more, and a tank filled as planned holds.

#![allow(clippy::arithmetic_side_effects, reason = "small numbers of a test")]

use proptest::prelude::*;
use stowfast_core::reserve::water::{Habits, Holds, cassette, fill, fresh, total, waste};

fn habits() -> impl Strategy<Value = Habits> {
    let some = |most: i64| (0..=most).prop_map(Some);
    (some(8), some(8_000), some(60_000), some(10_000), some(2_000), any::<bool>()).prop_map(
        |(people, showers_milli, shower_ml, flushes_milli, flush_ml, flush_from_fresh)| Habits {
            people,
            showers_milli,
            shower_ml,
            flushes_milli,
            flush_ml,
            flush_from_fresh,
        },
    )
}

proptest! {
    /// Mass balance: no more runs into the waste than is taken from the fresh tank.
    #[test]
    fn the_waste_is_never_more_than_the_fresh_water(habits in habits()) {
        let (fresh, waste) = (total(&fresh(&habits).unwrap()), total(&waste(&habits).unwrap()));
        prop_assert!(waste.0 <= fresh.0 && waste.1 <= fresh.1);
    }

    #[test]
    fn more_people_showers_or_flushes_use_more(habits in habits(), which in 0..5) {
        let more = |of: Option<i64>| of.map(|of| of + 1);
        let mut greater = habits;
        match which {
            0 => greater.people = more(habits.people),
            1 => greater.showers_milli = more(habits.showers_milli),
            2 => greater.shower_ml = more(habits.shower_ml),
            3 => greater.flushes_milli = more(habits.flushes_milli),
            _ => greater.flush_ml = more(habits.flush_ml),
        }
        for uses in [fresh, waste, cassette] {
            let (less, more) = (total(&uses(&habits).unwrap()), total(&uses(&greater).unwrap()));
            prop_assert!(less.0 <= less.1);
            prop_assert!(less.0 <= more.0 && less.1 <= more.1);
        }
    }

    /// Whatever the true level and use within what is told: filled to what the plan says it holds, and
    /// where it says that a full tank does not, it does not.
    #[test]
    fn a_tank_filled_as_planned_holds(
        level in (0_i64..=100_000, 0_i64..=100_000), true_level in 0_i64..=1_000,
        end in 0_i64..=20_000, most in (0_i64..=120_000, 0_i64..=120_000), true_use in 0_i64..=1_000,
    ) {
        let sorted = |(a, b): (i64, i64)| (a.min(b), a.max(b));
        let (level, most) = (sorted(level), sorted(most));
        let within = |(a, b): (i64, i64), permille: i64| a + (b - a) * permille / 1_000;
        let (level_true, use_true) = (within(level, true_level), within(most, true_use));
        let plan = fill(level, end, 100_000, most);
        prop_assert!(plan.add.0 <= plan.add.1 && plan.add.1 <= plan.room.1);
        let usable = |level: i64| (level - end).max(0);
        match plan.full_holds {
            Holds::Yes => {
                prop_assert!(usable((level_true + plan.add.1).min(100_000)) >= use_true);
                prop_assert!(usable(plan.to.max(level_true)) >= use_true);
            }
            Holds::No => prop_assert!(usable(100_000) < use_true),
            Holds::Perhaps => {}
        }
        if plan.add.1 == 0 {
            prop_assert!(use_true == 0 || usable(level_true) >= use_true);
        }
    }
}
