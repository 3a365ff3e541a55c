//! Warmer gas presses more, a mixture never grows richer in propane as it is used, and what is left
//! over balances.

use proptest::prelude::*;
use stowfast_core::reckon::gas::{
    Draw, Pure, bubble_kpa, flows, flows_from_c, gives_kg_per_h, left_over, share_left,
};

proptest! {
    #[test]
    fn warmer_gas_presses_more(celsius in -45.0..49.0_f64, more in 0.01..1.0_f64, share in 0.0..=1.0_f64) {
        for gas in [Pure::Propane, Pure::Butane, Pure::Isobutane] {
            prop_assert!(gas.vapour_kpa(celsius) < gas.vapour_kpa(celsius + more));
        }
        let (cold, warm) = (bubble_kpa(share, celsius), bubble_kpa(share, celsius + more));
        prop_assert!(cold.lower < warm.lower && cold.upper < warm.upper && cold.lower <= cold.upper);
    }

    #[test]
    fn the_pressure_lies_between_that_of_both_gases(celsius in -45.0..50.0_f64, share in 0.0..=1.0_f64) {
        let raoult = bubble_kpa(share, celsius).upper;
        prop_assert!(raoult <= Pure::Propane.vapour_kpa(celsius) * (1.0 + 1e-12));
        prop_assert!(raoult >= Pure::Butane.vapour_kpa(celsius) * (1.0 - 1e-12));
    }

    /// Propane leaves first: the more is drawn, the less of it is in what is left.
    #[test]
    fn a_mixture_grows_poorer_in_propane_as_it_is_used(share in 0.01..0.99_f64, left in 0.02..1.0_f64, drawn in 0.0..0.9_f64, celsius in -30.0..30.0_f64) {
        let now = share_left(share, left, celsius);
        let later = share_left(share, left * (1.0 - drawn), celsius);
        prop_assert!(later <= now + 1e-9 && now <= share + 1e-9 && later >= 0.0);
    }

    /// Mass balance: drawn in two parts, the same is left as when drawn at once.
    #[test]
    fn in_two_parts_it_ends_as_at_once(share in 0.05..0.95_f64, one in 0.2..1.0_f64, other in 0.2..1.0_f64, celsius in -30.0..30.0_f64) {
        let half_way = share_left(share, one, celsius);
        let twice = share_left(half_way, other, celsius);
        prop_assert!((twice - share_left(share, one * other, celsius)).abs() < 1e-6);
    }

    #[test]
    fn what_is_left_over_has_the_share_that_still_flows(share in 0.2..0.99_f64, part in 0.05..0.95_f64, celsius in -30.0..30.0_f64) {
        let needed = share * part;
        let left = left_over(share, needed, celsius);
        prop_assert!((0.0..=1.0).contains(&left));
        prop_assert!((share_left(share, left, celsius) - needed).abs() < 1e-6);
    }

    #[test]
    fn colder_never_flows_where_warmer_does_not(share in 0.0..=1.0_f64, celsius in -45.0..49.0_f64, more in 0.0..20.0_f64) {
        let rank = |flows: Option<bool>| match flows { Some(false) => 0, None => 1, Some(true) => 2 };
        prop_assert!(rank(flows(share, celsius)) <= rank(flows(share, celsius + more)));
        let from = flows_from_c(share);
        prop_assert!(flows(share, from.upper + 0.01) == Some(true) && flows(share, from.lower - 0.01) == Some(false));
    }

    #[test]
    fn colder_or_emptier_never_gives_more(contents in 0.5..60.0_f64, left in 0.0..1.0_f64, share in 0.0..=1.0_f64, air in -40.0..35.0_f64, more in 0.0..10.0_f64) {
        let gives = |left: f64, air: f64| gives_kg_per_h(contents, left, share, air, Draw::Steady);
        let (now, warm, full) = (gives(left, air), gives(left, air + more), gives(1.0, air));
        prop_assert!(now.lower >= 0.0 && now.lower <= now.upper);
        prop_assert!(now.lower <= warm.lower + 1e-12 && now.upper <= warm.upper + 1e-12);
        prop_assert!(now.upper <= full.upper + 1e-12);
        let burst = gives_kg_per_h(contents, left, share, air, Draw::Burst);
        prop_assert!(burst.lower >= now.lower && burst.upper >= now.upper);
    }
}
