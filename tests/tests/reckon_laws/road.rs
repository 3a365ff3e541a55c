//! More in the tank goes further; hotter, longer or thirstier lasts less; bands hold what lies within.

use proptest::prelude::*;
use stowfast_core::reckon::Between;
use stowfast_core::reckon::fuel::{
    HEATER_EFFICIENCY, after_l, by_gauge_l, draw_l_per_h, nights, reaches_km, told_l,
    use_l_per_100_km,
};
use stowfast_core::reckon::tyres::{Against, against, at_temperature_bar, rise_bar};
use stowfast_core::reckon::urea::{self, fits_l, weighs_kg};

fn no_more(less: Between, more: Between) -> bool {
    less.lower <= more.lower && less.upper <= more.upper
}

proptest! {
    #[test]
    fn more_in_the_tank_goes_further_and_more_use_less_far(
        litres in 0.0..90.0_f64, more in 0.0..40.0_f64, usual in 4.0..30.0_f64, worse in 0.0..20.0_f64,
    ) {
        let km = |litres, usual| reaches_km(told_l(litres, None), use_l_per_100_km(usual));
        prop_assert!(no_more(km(litres, usual), km(litres + more, usual)));
        prop_assert!(no_more(km(litres, usual + worse), km(litres, usual)));
        prop_assert!(km(litres, usual).holds(litres / usual * 100.0));
    }

    #[test]
    fn more_urea_goes_further_and_more_diesel_uses_more(
        litres in 0.0..30.0_f64, more in 0.0..20.0_f64, diesel in 4.0..30.0_f64, share in 0.03..0.07_f64,
    ) {
        let used = urea::use_l_per_100_km(Between::exactly(diesel));
        let km = |litres| reaches_km(Between::exactly(litres), used);
        prop_assert!(no_more(km(litres), km(litres + more)));
        prop_assert!(km(litres).holds(litres / (diesel * share) * 100.0) || litres < 1e-9);
        prop_assert!(urea::by_countdown_km(litres * 100.0).upper <= litres * 100.0 + 1e-9);
    }

    #[test]
    fn what_is_in_and_what_fits_make_the_tank(capacity in 5.0..40.0_f64, share in 0.0..1.0_f64) {
        let left = by_gauge_l(share, capacity);
        let fits = fits_l(left, capacity);
        prop_assert!(left.lower >= 0.0 && left.upper <= capacity && left.holds(share * capacity));
        prop_assert!((fits.lower + left.upper - capacity).abs() < 1e-9);
        prop_assert!((fits.upper + left.lower - capacity).abs() < 1e-9);
        prop_assert!(weighs_kg(fits).lower >= fits.lower);
    }

    #[test]
    fn hotter_or_longer_heat_lasts_fewer_nights(
        heat in 0.5..6.0_f64, hotter in 0.0..4.0_f64, hours in 1.0..14.0_f64, longer in 0.0..8.0_f64,
        litres in 0.0..90.0_f64, more in 0.0..30.0_f64, floor in 0.0..30.0_f64,
    ) {
        let lasts = |heat, hours: f64, litres, floor| {
            nights(told_l(litres, None), floor, draw_l_per_h(heat, HEATER_EFFICIENCY) * hours)
        };
        let now = lasts(heat, hours, litres, floor);
        prop_assert!(no_more(lasts(heat + hotter, hours, litres, floor), now));
        prop_assert!(no_more(lasts(heat, hours + longer, litres, floor), now));
        prop_assert!(no_more(lasts(heat, hours, litres, floor + 5.0), now));
        prop_assert!(no_more(now, lasts(heat, hours, litres + more, floor)));
        prop_assert!(now.lower >= 0.0 && now.lower <= now.upper);
    }

    /// Heat is never more than what the diesel that is burnt gives.
    #[test]
    fn a_heater_gives_no_more_than_it_burns(heat in 0.1..12.0_f64) {
        prop_assert!(draw_l_per_h(heat, HEATER_EFFICIENCY).lower * 11.954 * 0.83 >= heat);
    }

    #[test]
    fn a_heater_leaves_the_floor_and_never_adds(
        low in 0.0..90.0_f64, wide in 0.0..20.0_f64, floor in 0.0..40.0_f64, burnt in 0.0..60.0_f64,
    ) {
        let left = Between::of(low, low + wide);
        let after = after_l(left, floor, Between::exactly(burnt));
        prop_assert!(no_more(after, left) && after.lower >= left.lower.min(floor));
        let more = after_l(left, floor, Between::exactly(burnt + 1.0));
        prop_assert!(no_more(more, after));
    }

    /// Warmth raises it, cooling again takes that back, and a warm reading is never taken for low
    /// where the cold tyre is not.
    #[test]
    fn warmth_only_ever_raises_a_pressure(
        bar in 1.5..7.0_f64, cold in -10.0..30.0_f64, by in 0.0..60.0_f64,
    ) {
        let warm = at_temperature_bar(bar, cold, cold + by);
        prop_assert!(warm >= bar - 1e-9);
        prop_assert!((at_temperature_bar(warm, cold + by, cold) - bar).abs() < 1e-9);
        let rise = rise_bar(bar, by);
        prop_assert!(rise.lower - 1e-9 <= warm - bar && warm - bar <= rise.upper + 1e-9);
        prop_assert!(against(warm, bar) != Against::Low);
    }
}
