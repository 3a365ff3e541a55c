//! Warmer gas presses more, a mixture never grows richer in propane as it is used, and what is left
//! over balances.

use proptest::prelude::*;
use stowfast_core::reckon::Between;
use stowfast_core::reckon::gas::{
    Draw, Pure, bubble_kpa, by_mole_left, comes_out, evaporates_w, flows, flows_between,
    flows_from_c, gauge_kpa, gives_kg_per_h, kg_per_l, left_over, share_left, stays,
};

/// Kilograms of propane and of butane in a kilogram of a mixture.
fn kg_of(by_mole: f64) -> [f64; 2] {
    let [propane, butane] = [by_mole * 44.0956, (1.0 - by_mole) * 58.1222];
    [propane, butane].map(|kg| kg / (propane + butane))
}

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

    /// Drawn in small steps of vapour in balance with the liquid, what was used and what stays are what was
    /// in, and what stays is what was reckoned.
    #[test]
    fn what_stays_and_what_is_used_are_what_was_in(share in 0.2..0.95_f64, part in 0.2..0.9_f64, celsius in -30.0..30.0_f64) {
        let needed = share * part;
        let volatility = Pure::Propane.vapour_kpa(celsius) / Pure::Butane.vapour_kpa(celsius);
        let (mut kg, mut used) = (kg_of(share), [0.0, 0.0]);
        let moles = |kg: [f64; 2]| [kg[0] / 44.0956, kg[1] / 58.1222];
        let by_mole = |kg: [f64; 2]| moles(kg)[0] / (moles(kg)[0] + moles(kg)[1]);
        while by_mole(kg) > needed {
            let liquid = by_mole(kg);
            let vapour = volatility * liquid / (1.0 + (volatility - 1.0) * liquid);
            let step = kg_of(vapour).map(|of| of * (kg[0] + kg[1]) * 1e-4);
            for (place, drawn) in step.into_iter().enumerate() {
                kg[place] -= drawn;
                used[place] += drawn;
            }
        }
        let stays = left_over(share, needed, celsius);
        prop_assert!((kg[0] + kg[1] - stays).abs() < 1e-3, "{} {stays}", kg[0] + kg[1]);
        for (place, was) in kg_of(share).into_iter().enumerate() {
            let is = kg_of(needed)[place] * stays + used[place];
            prop_assert!((is - was).abs() < 1e-3, "{is} {was}");
        }
    }

    /// What comes out and what stays lie within what is left, and their bands meet it.
    #[test]
    fn what_comes_out_and_what_stays_are_what_is_left(share in 0.0..=1.0_f64, left in 0.0..=1.0_f64, low in -40.0..35.0_f64) {
        let exactly = Between::exactly(left);
        let (out, stay) = (comes_out(share, exactly, low), stays(share, exactly, low));
        prop_assert!(out.lower >= 0.0 && out.upper <= left + 1e-9);
        prop_assert!((out.lower + stay.upper - left).abs() < 1e-9 && (out.upper + stay.lower - left).abs() < 1e-9);
    }

    /// Colder never lasts longer, and neither does emptier.
    #[test]
    fn colder_or_emptier_never_lasts_longer(share in 0.0..=1.0_f64, one in 0.0..=1.0_f64, other in 0.0..=1.0_f64, low in -44.0..39.0_f64, more in 0.0..15.0_f64) {
        let left = Between::of(one, other);
        let (cold, warm) = (comes_out(share, left, low), comes_out(share, left, low + more));
        prop_assert!(cold.lower <= warm.lower + 1e-9 && cold.upper <= warm.upper + 1e-9);
        let fuller = comes_out(share, Between::exactly(left.upper), low);
        prop_assert!(cold.lower <= fuller.lower + 1e-9 && cold.upper <= fuller.upper + 1e-9);
    }

    /// Emptier never flows better: in pressure, in rate and in whether it flows at all.
    #[test]
    fn emptier_never_flows_better(share in 0.0..=1.0_f64, left in 0.0..=1.0_f64, drawn in 0.0..=1.0_f64, low in -40.0..35.0_f64) {
        let of = |left: f64| by_mole_left(share, Between::exactly(left), low);
        let (now, later) = (of(left), of(left * drawn));
        prop_assert!(later.lower <= now.lower + 1e-9 && later.upper <= now.upper + 1e-9);
        prop_assert!(now.lower <= now.upper + 1e-9 && now.upper <= share + 1e-9);
        prop_assert!(gauge_kpa(later.upper, low).upper <= gauge_kpa(now.upper, low).upper + 1e-6);
        let gives = |left: f64, share: f64| gives_kg_per_h(11.0, left, share, low, Draw::Steady);
        prop_assert!(gives(left * drawn, later.upper).upper <= gives(left, now.upper).upper + 1e-9);
        let rank = |flows: Option<bool>| match flows { Some(false) => 0, None => 1, Some(true) => 2 };
        prop_assert!(rank(flows_between(later, low)) <= rank(flows_between(now, low)));
    }

    #[test]
    fn warmer_or_richer_in_propane_is_lighter_and_needs_more_heat_for_more(share in 0.0..1.0_f64, more in 0.0..1.0_f64, low in -45.0..50.0_f64, high in -45.0..50.0_f64) {
        let at = |share: f64, celsius: f64| kg_per_l(Between::exactly(share), Between::exactly(celsius));
        let (cold, warm) = (low.min(high), low.max(high));
        prop_assert!(at(share, warm).upper <= at(share, cold).upper + 1e-12);
        prop_assert!(at(share + (1.0 - share) * more, cold).upper <= at(share, cold).upper + 1e-12);
        let heat = |kg: f64| evaporates_w(Between::exactly(kg), share, cold);
        prop_assert!(heat(more).upper <= heat(1.0).upper && heat(more).lower >= 0.0);
    }
}
