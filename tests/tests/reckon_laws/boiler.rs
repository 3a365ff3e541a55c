//! More power is never slower, more water or a hotter target never quicker; what comes in is stored or
//! lost; two sources together are what each gives.

use proptest::prelude::*;
use stowfast_core::reckon::Between;
use stowfast_core::reckon::boiler::{Boiler, Source, left_c, mixed_l, takes};

fn boiler() -> impl Strategy<Value = Boiler> {
    (3.0..20.0_f64, 0.0..3.0_f64, 0.0..25.0_f64)
        .prop_map(|(volume_l, loss_w_per_k, room_c)| Boiler { volume_l, loss_w_per_k, room_c })
}

fn hours(boiler: Boiler, from_c: f64, to_c: f64, power_w: f64) -> f64 {
    boiler.heat(from_c, to_c, power_w).map_or(f64::INFINITY, |heating| heating.hours)
}

fn never_less(more: f64, less: f64) -> bool {
    more >= less * (1.0 - 1e-9)
}

proptest! {
    #[test]
    fn time_to_heat_falls_with_power_and_rises_with_volume_loss_and_target(
        one in boiler(), from_c in 2.0..25.0_f64, to_c in 30.0..80.0_f64, power_w in 0.0..6_000.0_f64,
        more in 0.0..1.0_f64,
    ) {
        let plain = hours(one, from_c, to_c, power_w);
        prop_assert!(never_less(plain, hours(one, from_c, to_c, power_w * (1.0 + more))));
        prop_assert!(never_less(hours(one, from_c, to_c + 10.0 * more, power_w), plain));
        let larger = Boiler { volume_l: one.volume_l * (1.0 + more), ..one };
        prop_assert!(never_less(hours(larger, from_c, to_c, power_w), plain));
        let colder = Boiler { room_c: one.room_c - 10.0 * more, ..one };
        prop_assert!(never_less(hours(colder, from_c, to_c, power_w), plain));
    }

    /// In = stored + lost, with the losses summed in small steps by themselves.
    #[test]
    fn what_comes_in_is_stored_or_lost(
        one in boiler(), from_c in 2.0..25.0_f64, to_c in 30.0..80.0_f64, power_w in 700.0..6_000.0_f64,
    ) {
        let heating = one.heat(from_c, to_c, power_w).unwrap();
        let kj_per_k = heating.stored_kj / (to_c - from_c);
        let step_h = heating.hours / 20_000.0;
        let (mut celsius, mut lost_kj) = (from_c, 0.0);
        for _ in 0..20_000 {
            let gone_kj = one.loss_w_per_k * (celsius - one.room_c) * 3.6 * step_h;
            celsius += (power_w * 3.6 * step_h - gone_kj) / kj_per_k;
            lost_kj += gone_kj;
        }
        prop_assert!((celsius - to_c).abs() <= 1e-2, "{celsius} for {to_c}");
        prop_assert!((heating.lost_kj - lost_kj).abs() <= 1e-3 * heating.in_kj);
        prop_assert!((heating.in_kj - power_w * 3.6 * heating.hours).abs() <= 1e-9 * heating.in_kj);
    }

    /// Together no slower than either, and no quicker than both would be one after the other without
    /// losses: 1/t = 1/t1 + 1/t2.
    #[test]
    fn gas_and_mains_together_are_what_each_gives(
        one in boiler(), from_c in 2.0..25.0_f64, to_c in 30.0..80.0_f64,
        electric_w in 100.0..2_000.0_f64, gas_w in 500.0..3_000.0_f64,
    ) {
        let (electric, gas) = (Source::Electric(electric_w), Source::Gas(gas_w));
        let mixed = Source::Mixed { electric_w, gas_w };
        let sum = electric.power_w() + gas.power_w();
        let end = |source: Source| source.power_w().lower;
        let at = |source| hours(one, from_c, to_c, end(source));
        prop_assert!((mixed.power_w().upper - sum.upper).abs() < 1e-9);
        prop_assert!(never_less(at(electric).min(at(gas)), at(mixed)));
        let lossless = Boiler { loss_w_per_k: 0.0, ..one };
        let at = |source| hours(lossless, from_c, to_c, end(source));
        let both = 1.0 / (1.0 / at(electric) + 1.0 / at(gas));
        prop_assert!((at(mixed) / both - 1.0).abs() < 1e-9);
    }

    #[test]
    fn the_least_is_never_more_than_the_most(
        volume_l in 3.0..20.0_f64, from_c in 2.0..25.0_f64, room_c in 0.0..25.0_f64,
        to_c in 30.0..80.0_f64, electric_w in 100.0..2_000.0_f64,
    ) {
        let band = |value: f64| Between::of(value - 2.0, value + 2.0);
        let takes = takes(volume_l, band(from_c), to_c, Source::Electric(electric_w), band(room_c));
        let least = takes.least.map_or(f64::INFINITY, |heating| heating.hours);
        let most = takes.most.map_or(f64::INFINITY, |heating| heating.hours);
        prop_assert!(least <= most);
    }

    /// What was mixed holds no more heat than the boiler had, and more hot water gives no less.
    #[test]
    fn mixed_water_has_the_heat_of_the_boiler_at_most(
        volume_l in 3.0..20.0_f64, cold_c in 2.0..25.0_f64, hot_c in 40.0..80.0_f64,
        mix_c in 36.0..42.0_f64, hotter in 0.0..10.0_f64,
    ) {
        let mixed = mixed_l(volume_l, hot_c, cold_c, mix_c).unwrap();
        prop_assert!(mixed.lower <= mixed.upper && mixed.lower >= 0.0);
        let (taken, had) = (mixed.upper * (mix_c - cold_c), volume_l * (hot_c - cold_c));
        prop_assert!(taken <= had * (1.0 + 1e-12));
        let more = mixed_l(volume_l, hot_c + hotter, cold_c, mix_c).unwrap();
        prop_assert!(more.lower >= mixed.lower && more.upper >= mixed.upper);
        let left = left_c(volume_l, hot_c, cold_c, mix_c, mixed.lower);
        prop_assert!(left >= cold_c && (hot_c < mix_c || (left - mix_c).abs() < 1e-9));
    }

    #[test]
    fn it_never_cools_past_the_room(one in boiler(), from_c in 0.0..80.0_f64, hours in 0.0..100.0_f64) {
        let left_c = one.cooled_c(from_c, hours);
        let between = Between::of(from_c, one.room_c);
        prop_assert!((between.lower - 1e-9..=between.upper + 1e-9).contains(&left_c));
    }
}
