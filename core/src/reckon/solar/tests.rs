//! The sun, by hand.

use super::*;
use crate::reckon::Between;
use crate::reserve::chemistry::Chemistry;

#[track_caller]
fn near(ours: f64, theirs: f64, tolerance: f64) {
    assert!((ours - theirs).abs() < tolerance, "ours {ours}, by hand {theirs}");
}

#[test]
fn the_day_of_an_instant_is_that_of_its_calendar() {
    // 2025-06-21 00:00 and 23:59 UTC.
    assert_eq!(Sun::at(1_750_464_000_000), Sun::on(9_303));
    assert_eq!(Sun::at(1_750_550_340_000), Sun::on(9_303));
    near(Sun::on(9_303).declination_deg, 23.44, 0.01);
    assert!(Sun::at(i64::MIN).declination_deg.is_finite());
}

#[test]
fn beyond_the_polar_circle_it_stays_up_or_down() {
    let (june, december) = (Sun::on(9_303), Sun::on(9_486));
    near(day_length_h(75.0, &june), 24.0, 1e-9);
    near(day_length_h(75.0, &december), 0.0, 1e-9);
    near(above_the_air_kwh_m2(75.0, &december), 0.0, 1e-9);
    near(day_wh(75.0, &december, Sky::Clear, 100.0).upper, 0.0, 1e-9);
    near(day_length_h(-75.0, &december), 24.0, 1e-9);
}

/// 100 Wp, 10 kWh/m² above the air, half of it lets through: 500 Wh, of which 375 to 425 arrive.
#[test]
fn a_panel_brings_its_watt_peaks_for_each_kilowatt_hour() {
    let brings = flat_wh(100.0, 10.0, Between::exactly(0.5));
    near(brings.lower, 375.0, 1e-9);
    near(brings.upper, 425.0, 1e-9);
    let ah = charge_ah(brings, Chemistry::Flooded);
    near(ah.lower, 375.0 * 0.8 / 14.4, 1e-9);
    near(ah.upper, 425.0 / 12.7, 1e-9);
}
