//! More wind presses harder, and every speed lies in the range of its own number.

use proptest::prelude::*;
use stowfast_core::reckon::Between;
use stowfast_core::reckon::wind::{beaufort, gust_ms, mean_ms, pull_n};

proptest! {
    #[test]
    fn a_speed_lies_in_the_range_of_its_number(speed in 0.0..50.0_f64) {
        prop_assert!(mean_ms(beaufort(speed)).holds(speed));
    }

    #[test]
    fn more_wind_or_cloth_never_pulls_less(speed in 0.0..50.0_f64, more in 0.0..20.0_f64, area in 0.0..40.0_f64) {
        let pull = |speed: f64, area: f64| pull_n(gust_ms(Between::exactly(speed)), area);
        let (less, windy, large) = (pull(speed, area), pull(speed + more, area), pull(speed, area + more));
        prop_assert!(less.lower <= windy.lower && less.upper <= windy.upper);
        prop_assert!(less.lower <= large.lower && less.upper <= large.upper);
        prop_assert!(less.lower <= less.upper && less.lower >= 0.0);
    }
}
