//! Laws of battery and sun.

#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    reason = "a test may fail loudly"
)]

use proptest::prelude::*;
use stowfast_core::reckon::Between;
use stowfast_core::reckon::battery::{
    Ahead, Capacity, Day, Load, Run, ahead, charge_h, drawn_ah, exponent, floor, freezes_at_c,
    hours, level_after, warmth,
};
use stowfast_core::reckon::solar::{Sky, Sun, above_the_air_kwh_m2, day_length_h, day_wh};
use stowfast_core::reserve::chemistry::{Chemistry, Table};

const HAIR: f64 = 1e-9;
const ALL: [Chemistry; 4] =
    [Chemistry::Flooded, Chemistry::Agm, Chemistry::Gel, Chemistry::Lifepo4];

fn chemistry() -> impl Strategy<Value = Chemistry> {
    prop::sample::select(ALL.as_slice())
}

fn between(range: std::ops::Range<f64>) -> impl Strategy<Value = Between> {
    (range.clone(), range).prop_map(|(one, other)| Between::of(one, other))
}

fn load() -> impl Strategy<Value = Load> {
    (between(0.0..40.0), 0.0..24.0).prop_map(|(current_a, hours)| Load { current_a, hours })
}

fn capacity() -> impl Strategy<Value = Capacity> {
    (50.0..400.0, 5.0..30.0, between(1.0..1.4)).prop_map(|(ah, rated_h, exponent)| Capacity {
        ah,
        rated_h,
        exponent,
    })
}

/// `None` lasts for ever.
fn days(run: &Run) -> f64 {
    run.days.unwrap_or(f64::INFINITY)
}

fn all(ahead: &Ahead) -> [f64; 3] {
    [&ahead.lower, &ahead.middle, &ahead.upper].map(days)
}

proptest! {
    #[test]
    fn charge_never_falls_as_resting_volts_rise(of in chemistry(), mv in 10_000_i64..14_500, more in 0_i64..500) {
        let table = Table::published(of);
        let (less, greater) = (table.charge_permille(mv), table.charge_permille(mv + more));
        prop_assert!(less.0 <= greater.0 && less.1 <= greater.1 && less.0 <= less.1);
    }

    #[test]
    fn peukert_is_exact_at_the_rated_current(ah in 10.0..500.0, rated_h in 1.0..100.0, k in 1.0..1.5) {
        let lasts = hours(ah, rated_h, k, ah / rated_h).unwrap();
        prop_assert!((lasts - rated_h).abs() < HAIR * rated_h);
    }

    #[test]
    fn time_shrinks_with_the_current(ah in 10.0..500.0, k in 1.0..1.5, a in 0.1..100.0, more in 0.01..50.0) {
        prop_assert!(hours(ah, 20.0, k, a + more).unwrap() < hours(ah, 20.0, k, a).unwrap());
    }

    /// Whatever runs when: the true cost of a day in which each load runs in one stretch lies within.
    #[test]
    fn a_days_use_lies_within_whatever_runs_at_the_same_time(
        loads in prop::collection::vec((load(), 0.0..1.0), 1..5), capacity in capacity(), part in 0.0..1.0
    ) {
        let k = capacity.exponent.lower + part * (capacity.exponent.upper - capacity.exponent.lower);
        let own: Vec<_> = loads
            .iter()
            .map(|(load, from)| {
                let band = load.current_a;
                (from * (24.0 - load.hours), load.hours, band.lower + part * (band.upper - band.lower))
            })
            .collect();
        let mut edges: Vec<f64> = own.iter().flat_map(|one| [one.0, one.0 + one.1]).collect();
        edges.sort_by(f64::total_cmp);
        let mut cost = 0.0;
        for edge in edges.windows(2) {
            let middle = f64::midpoint(edge[0], edge[1]);
            let on: f64 =
                own.iter().filter(|one| one.0 < middle && middle < one.0 + one.1).map(|one| one.2).sum();
            let lasts = hours(capacity.ah, capacity.rated_h, k, on).unwrap_or(f64::INFINITY);
            let alone = capacity.ah / lasts;
            cost += (edge[1] - edge[0]) * alone.max(on);
        }
        let loads: Vec<_> = loads.into_iter().map(|(load, _)| load).collect();
        let band = drawn_ah(&loads, &capacity);
        prop_assert!(band.lower <= cost + 1e-6 && cost <= band.upper + 1e-6, "{band:?}: {cost}");
    }

    #[test]
    fn more_load_never_lasts_longer(
        loads in prop::collection::vec(load(), 0..5), extra in load(), capacity in capacity(),
        level in between(0.0..1.0), gained in between(0.0..150.0), of in chemistry()
    ) {
        let full = Between::exactly(capacity.ah) * 0.9;
        let lasts = |loads: &[Load]| {
            let day = Day { drawn_ah: drawn_ah(loads, &capacity), gained_ah: gained };
            all(&ahead(full, level, floor(of), day))
        };
        let mut more = loads.clone();
        more.push(extra);
        for (less, greater) in lasts(&more).into_iter().zip(lasts(&loads)) {
            prop_assert!(less <= greater + HAIR);
        }
    }

    /// What was taken out less what came in is what the charge fell by, day by day, unless it was full.
    #[test]
    fn every_day_balances(full in 20.0..400.0, level in 0.3..1.0, drawn in 0.0..50.0, gained in 0.0..50.0) {
        let [full_ah, drawn_ah, gained_ah] = [full, drawn, gained].map(Between::exactly);
        let ahead = ahead(full_ah, Between::exactly(level), 0.2, Day { drawn_ah, gained_ah });
        for run in [&ahead.lower, &ahead.middle, &ahead.upper] {
            let reached = usize::from(run.days.is_some());
            let whole = run.levels.len() - reached;
            for day in run.levels[..whole].windows(2) {
                let balance = (day[0] * full - drawn + gained).min(full);
                prop_assert!((day[1] * full - balance).abs() < 1e-6);
                prop_assert!((0.0..=1.0).contains(&day[1]));
            }
        }
        prop_assert!(days(&ahead.lower) <= days(&ahead.upper) + HAIR);
    }

    #[test]
    fn the_worst_is_never_better_than_the_middle_nor_that_than_the_best(
        full in between(20.0..400.0), level in between(0.0..1.0), drawn_ah in between(0.0..80.0),
        gained_ah in between(0.0..80.0)
    ) {
        let [worst, middle, best] = all(&ahead(full, level, 0.5, Day { drawn_ah, gained_ah }));
        prop_assert!(worst <= middle + HAIR && middle <= best + HAIR);
    }

    #[test]
    fn colder_never_gives_more(of in chemistry(), cells in -60.0..60.0, colder in 0.0..40.0) {
        let warm = warmth(of, Between::exactly(cells));
        let cold = warmth(of, Between::exactly(cells - colder));
        prop_assert!(cold.lower <= warm.lower && cold.upper <= warm.upper);
        prop_assert!(cold.lower <= cold.upper && cold.lower >= 0.0 && warm.upper <= 1.0);
    }

    #[test]
    fn an_emptier_lead_battery_freezes_sooner(level in 0.0_f64..1.0, less in 0.0_f64..1.0) {
        let at = |level: f64| freezes_at_c(Chemistry::Agm, Between::exactly(level)).unwrap();
        let (fuller, emptier) = (at(level), at((level - less).max(0.0)));
        prop_assert!(emptier.lower >= fuller.lower && emptier.upper >= fuller.upper);
    }

    /// Charged for as long as it takes, it is as full as it was to be; a stronger source is never slower.
    #[test]
    fn charging_comes_to_where_it_should(
        of in chemistry(), ah in 50.0..400.0, from in 0.0..0.9, to in 0.0..1.0, amps in 1.0..80.0,
        more in 0.0..40.0
    ) {
        let (ah, from, to) = (Between::exactly(ah), Between::exactly(from), from + to * (1.0 - from));
        let takes = |amps: f64| charge_h(of, ah, from, to, Between::exactly(amps)).unwrap();
        let (weak, strong) = (takes(amps), takes(amps + more));
        prop_assert!(weak.lower <= weak.upper);
        prop_assert!(strong.lower <= weak.lower + HAIR && strong.upper <= weak.upper + HAIR);
        let after = |hours: f64| level_after(of, ah, from, hours, Between::exactly(amps));
        prop_assert!((after(weak.lower).upper - to).abs() < 1e-6);
        prop_assert!((after(weak.upper).lower - to).abs() < 1e-6);
        prop_assert!(charge_h(of, ah, from, 1.0, Between::exactly(0.0)).is_none());
    }

    /// A larger panel or a clearer sky never brings less.
    #[test]
    fn more_panel_and_less_cloud_bring_more(
        latitude in -90.0..90.0, day in 0_i32..20_000, wp in 0.0..800.0, more in 0.0..400.0
    ) {
        let sun = Sun::on(day);
        let brings = |sky, wp| day_wh(latitude, &sun, sky, wp);
        for sky in [Sky::Clear, Sky::Broken, Sky::Overcast] {
            let (small, large) = (brings(sky, wp), brings(sky, wp + more));
            prop_assert!(0.0 <= small.lower && small.lower <= small.upper);
            prop_assert!(small.lower <= large.lower && small.upper <= large.upper);
        }
        for skies in [Sky::Overcast, Sky::Broken, Sky::Clear].windows(2) {
            let (grey, bright) = (brings(skies[0], wp), brings(skies[1], wp));
            prop_assert!(grey.lower <= bright.lower && grey.upper <= bright.upper);
        }
    }

    /// From October to February the sun brings less the further north.
    #[test]
    fn in_winter_it_brings_less_further_north(latitude in 0.0_f64..90.0, north in 0.0_f64..30.0, day in 275_i32..430) {
        let sun = Sun::on(day);
        let brings = |latitude: f64| day_wh(latitude, &sun, Sky::Clear, 100.0);
        let (south, further) = (brings(latitude), brings((latitude + north).min(90.0)));
        prop_assert!(further.lower <= south.lower + HAIR && further.upper <= south.upper + HAIR);
    }

    /// South of the equator a day is as long as north of it when the sun stands on the other side.
    #[test]
    fn days_are_alike_on_both_sides(latitude in -90.0..90.0, declination in -23.44..23.44) {
        let sun = |declination_deg: f64| Sun { declination_deg, nearness: 1.0 };
        let (here, there) = (sun(declination), sun(-declination));
        let (one, other) = (day_length_h(latitude, &here), day_length_h(-latitude, &there));
        prop_assert!((one - other).abs() < 1e-6 && (0.0..=24.0).contains(&one));
        let (one, other) =
            (above_the_air_kwh_m2(latitude, &here), above_the_air_kwh_m2(-latitude, &there));
        prop_assert!((one - other).abs() < 1e-6);
    }

    /// Whatever number comes, something is said and nothing breaks.
    #[test]
    fn no_number_breaks_it(numbers in prop::collection::vec(prop::num::f64::NORMAL | prop::num::f64::ZERO, 9), ms: i64) {
        let pair = |at: usize| Between::of(numbers[at], numbers[at + 1]);
        let _ = hours(numbers[0], numbers[1], numbers[2], numbers[3]);
        let capacity = Capacity { ah: numbers[0], rated_h: numbers[1], exponent: pair(2) };
        let load = Load { current_a: pair(4), hours: numbers[6] };
        let drawn = drawn_ah(&[load, load], &capacity);
        let _ = ahead(pair(0), pair(2), numbers[4], Day { drawn_ah: drawn, gained_ah: pair(7) });
        for of in ALL {
            let _ = (warmth(of, pair(0)), freezes_at_c(of, pair(1)), exponent(of));
            let _ = charge_h(of, pair(0), pair(2), numbers[4], pair(5));
            let _ = level_after(of, pair(0), pair(2), numbers[4], pair(5));
        }
        let sun = Sun::at(ms);
        let _ = (day_length_h(numbers[0], &sun), day_wh(numbers[1], &sun, Sky::Broken, numbers[2]));
    }
}
