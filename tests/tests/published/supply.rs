//! Leads, breakers and the mains budget: IEC 60228, BS 7671, IEC 60898-1, and tables computed from
//! them. Tolerances are those that were set beside the numbers before ours were known.

#![allow(clippy::unwrap_used, reason = "a test fails loudly")]

use stowfast_core::reckon::Between;
use stowfast_core::reckon::supply::breaker::{Breaker, Curve, Steady};
use stowfast_core::reckon::supply::lead::{
    Core, LIGHTING_PCT, LONGEST_M, Lead, Loss, OTHER_PCT, kt,
};
use stowfast_core::reckon::supply::load::{Load, MAINS_V, Nature};
use stowfast_tests::table::table;

fn metre(core: Core, section_mm2: f64) -> Lead {
    Lead::new(core, 1.0, section_mm2).unwrap()
}

#[track_caller]
fn within(ours: f64, theirs: f64, share: f64) {
    assert!((ours - theirs).abs() <= share * theirs.abs(), "ours {ours}, theirs {theirs}");
}

/// Source: IEC 60228:2004, tables 3 and 2, ohms per kilometre at 20 °C; exact, to what a float holds.
#[test]
fn a_core_has_the_resistance_of_the_standard() {
    let flexible = [
        (0.75, 26.0),
        (1.0, 19.5),
        (1.5, 13.3),
        (2.5, 7.98),
        (4.0, 4.95),
        (6.0, 3.30),
        (10.0, 1.91),
        (16.0, 1.21),
        (25.0, 0.780),
        (35.0, 0.554),
    ];
    let fixed = [(1.5, 12.1), (2.5, 7.41), (4.0, 4.61), (6.0, 3.08), (10.0, 1.83), (16.0, 1.15)];
    let rows = flexible.map(|row| (Core::Flexible, row)).into_iter();
    for (core, (section, ohm_per_km)) in rows.chain(fixed.map(|row| (Core::Fixed, row))) {
        within(metre(core, section).mv_per_a_m(20.0) / 2.0, ohm_per_km, 1e-12);
    }
}

/// Source: IEC 60228, annex, printed to three digits; 0.5 %.
#[test]
fn the_factor_of_temperature_is_that_of_the_annex() {
    for (core_c, factor) in [
        (5.0, 1.064),
        (10.0, 1.042),
        (15.0, 1.020),
        (25.0, 0.980),
        (30.0, 0.962),
        (40.0, 0.926),
        (50.0, 0.893),
        (60.0, 0.862),
        (70.0, 0.833),
        (90.0, 0.781),
    ] {
        within(kt(core_c), factor, 0.005);
    }
}

/// Source: the coefficient of copper in textbooks, 0.003 93 for each kelvin from 20 °C, from memory;
/// 0.5 %.
#[test]
fn the_coefficient_of_textbooks_says_the_same() {
    within(1.0 / kt(60.0), 1.1572, 0.005);
    within(1.0 / kt(70.0), 1.1965, 0.005);
}

/// Source: `voltdrop_iec60228.csv`, computed with that coefficient; 0.5 %.
#[test]
fn each_section_loses_per_ampere_and_metre_what_the_table_says() {
    let rows = table("voltdrop_iec60228.csv").unwrap();
    assert_eq!(rows.len(), 8);
    for row in rows {
        let lead = metre(Core::Flexible, row["mm2"]);
        within(lead.mv_per_a_m(20.0) / 2.0, row["R20_ohm_per_km"], 1e-12);
        for core_c in [20, 40, 60, 70, 90] {
            // Printed to 0.01 mV.
            let theirs = row[&format!("mV_A_m_{core_c}C")];
            let ours = lead.mv_per_a_m(f64::from(core_c));
            assert!((ours - theirs).abs() <= 0.005 * theirs + 0.005, "{row:?}: {ours}");
        }
        if let Some(theirs) = row.get("class2_mV_A_m_70C") {
            within(metre(Core::Fixed, row["mm2"]).mv_per_a_m(70.0), *theirs, 0.005);
        }
    }
}

/// Source: `voltdrop_cases.csv`, computed with that coefficient; 0.5 %.
#[test]
fn each_lead_loses_and_leaves_what_the_table_says() {
    let rows = table("voltdrop_cases.csv").unwrap();
    assert_eq!(rows.len(), 54);
    for row in rows {
        let lead = Lead::new(Core::Flexible, row["L_m"], row["mm2"]).unwrap();
        let drop = lead.carrying(MAINS_V, row["I_A"], row["temp_C"]);
        within(drop.lost_v, row["dV_V"], 0.005);
        within(drop.lost_pct, row["dV_pct_230"], 0.005);
        // Printed to 0.1 W.
        assert!((drop.lost_w - row["P_lost_W"]).abs() <= 0.005 * row["P_lost_W"] + 0.05);
        let fed = lead.feeding(MAINS_V, row["constR_load_P_nom_W"], row["temp_C"]);
        within(fed.load_v, row["constR_V_at_load"], 0.005);
        within(fed.load_w, row["constR_P_actual_W"], 0.005);
    }
}

/// Source: IEC 60228 class 5 by hand; 0.5 %.
#[test]
fn single_cases_come_out() {
    let lead = |length_m, section| Lead::new(Core::Flexible, length_m, section).unwrap();
    let lost = |length_m, section, current_a, core_c| {
        lead(length_m, section).carrying(MAINS_V, current_a, core_c)
    };
    for (drop, volts, per_cent) in [
        (lost(25.0, 2.5, 16.0, 20.0), 6.384, 2.776),
        (lost(25.0, 2.5, 16.0, 60.0), 7.388, 3.212),
        (lost(25.0, 1.5, 16.0, 20.0), 10.64, 4.626),
        (lost(25.0, 1.5, 16.0, 60.0), 12.313, 5.353),
        (lost(50.0, 2.5, 16.0, 20.0), 12.768, 5.551),
        (lost(50.0, 2.5, 16.0, 60.0), 14.775, 6.424),
    ] {
        within(drop.lost_v, volts, 0.005);
        within(drop.lost_pct, per_cent, 0.005);
    }
    within(lost(25.0, 2.5, 16.0, 20.0).lost_w, 102.1, 0.005);
    within(lost(25.0, 2.5, 16.0, 60.0).lost_w, 118.2, 0.005);
    within(lost(25.0, 2.5, 10.0, 20.0).lost_v, 3.990, 0.005);
    within(lost(25.0, 2.5, 6.0, 20.0).lost_v, 2.394, 0.005);
    let fed = lead(25.0, 2.5).feeding(MAINS_V, 3_680.0, 20.0);
    within(fed.load_v, 223.79, 0.005);
    within(fed.load_w, 3_483.9, 0.005);
    for (length_m, section, current_a, volts) in
        [(5.0, 2.5, 10.0, 0.798), (6.0, 6.0, 20.0, 0.792), (4.0, 16.0, 60.0, 0.581)]
    {
        within(lead(length_m, section).carrying(12.0, current_a, 20.0).lost_v, volts, 0.005);
    }
}

/// Source: BS 7671, table 4D2B, 2.5 mm² (the others from memory): mV per A and m at 70 °C; 0.5 mV.
#[test]
fn a_fixed_cable_loses_what_the_wiring_rules_say() {
    for (section, theirs) in [(1.5, 29.0), (2.5, 18.0), (4.0, 11.0), (6.0, 7.3)] {
        let ours = metre(Core::Fixed, section).mv_per_a_m(70.0);
        assert!((ours - theirs).abs() <= 0.5, "{section}: {ours}");
    }
}

/// Source: BS 7671, table 4F3B at 60 °C; the table is an upper bound, 5 %. Table 4F2B at 90 °C rounds
/// and lifts its numbers in the same way.
#[test]
fn a_flexible_lead_loses_no_more_than_the_wiring_rules_allow() {
    let at_60 = [(0.75, 62.0), (1.0, 46.0), (1.5, 32.0), (2.5, 19.0), (4.0, 12.0)];
    let at_90 = [(4.0, 13.2), (6.0, 8.5), (10.0, 5.1), (16.0, 3.2)];
    let rows = at_60.map(|row| (60.0, row)).into_iter().chain(at_90.map(|row| (90.0, row)));
    for (core_c, (section, most)) in rows {
        let ours = metre(Core::Flexible, section).mv_per_a_m(core_c);
        assert!(ours <= most && ours >= most * 0.95, "{section} at {core_c}: {ours}, {most}");
    }
}

/// Source: BS 7671, table 4Ab: 3 % for lighting (6.9 V), 5 % for other uses (11.5 V); exact.
#[test]
fn the_limits_are_those_of_the_wiring_rules() {
    within(MAINS_V * LIGHTING_PCT / 100.0, 6.9, 1e-12);
    within(MAINS_V * OTHER_PCT / 100.0, 11.5, 1e-12);
    assert_eq!([3.0, 5.0, 5.01].map(Loss::of), [Loss::Fine, Loss::AboveLighting, Loss::AboveAll]);
}

/// Source: IEC 60364-7-721, 25 m ± 2 m; DIN VDE 0100-708, 2.5 mm² for 16 A.
#[test]
fn a_pitch_lead_is_one_of_27_metres_at_most_and_no_thinner_than_2_5() {
    within(LONGEST_M, 27.0, 1e-12);
    let lead = |length_m, section| Lead::new(Core::Flexible, length_m, section).unwrap();
    assert!(!lead(27.0, 2.5).is_joined() && lead(27.1, 2.5).is_joined());
    assert!(!lead(25.0, 2.5).is_thin() && lead(25.0, 1.5).is_thin());
}

/// Source: IEC 60898-1; exact.
#[test]
fn a_breaker_holds_and_trips_where_the_standard_says() {
    for rated_a in [6.0, 10.0, 16.0] {
        let breaker = Breaker::of(rated_a);
        assert_eq!(breaker.steady(1.13 * rated_a), Steady::HoldsAnHour);
        assert_eq!(breaker.steady(1.14 * rated_a), Steady::MayTrip);
        assert_eq!(breaker.steady(1.45 * rated_a), Steady::Trips);
    }
    let band = |lower, upper| Between { lower, upper };
    let bands = [band(3.0, 5.0), band(5.0, 10.0), band(10.0, 20.0)];
    assert_eq!(Curve::ALL.map(Curve::at_once), bands);
}

/// Source: amperes times 230 V; exact.
#[test]
fn the_mains_budget_is_that_of_the_table() {
    for (rated_a, watts) in [
        (3.0, 690.0),
        (4.0, 920.0),
        (5.0, 1_150.0),
        (6.0, 1_380.0),
        (8.0, 1_840.0),
        (10.0, 2_300.0),
        (13.0, 2_990.0),
        (16.0, 3_680.0),
    ] {
        within(Breaker::of(rated_a).rated_w(), watts, 1e-12);
    }
    let six = Breaker::of(6.0);
    within(six.holds_a(), 6.78, 1e-12);
    within(six.trips_a(), 8.70, 1e-12);
    // Printed in whole watts.
    assert!((six.holds_a() * MAINS_V - 1_559.0).abs() < 0.5);
    assert!((six.trips_a() * MAINS_V - 2_001.0).abs() <= 0.5);
}

/// Source: EN 50160 and IEC 60038, from memory: 207 to 253 V; an element at 5 % above its plate.
#[test]
fn the_mains_may_be_a_tenth_out_either_way() {
    let plate = Load { rated_w: MAINS_V, nature: Nature::Heating, cycles: false };
    within(plate.current_a().upper, 1.05 * 253.0 / 230.0, 1e-12);
    within(plate.current_a().lower, 0.9 * 207.0 / 230.0, 1e-12);
}
