//! Liquefied gas: reference equations of state, published guides and worked figures.

use stowfast_core::reckon::Between;
use stowfast_core::reckon::gas::{
    Draw, INLET_KPA, NET_KWH_PER_KG, Pure, bubble_kpa, burns_kg_per_h, by_mole, evaporates_w,
    flows_from_c, gives_kg_per_h, kg_per_l,
};
use stowfast_tests::table::{table, words};

fn near(ours: f64, theirs: f64, share: f64) {
    assert!((ours / theirs - 1.0).abs() <= share, "ours {ours}, theirs {theirs}");
}

/// Source: `CoolProp` 8.0.0 (reference equations of state); 1 %.
#[test]
fn the_vapour_pressure_of_each_gas_is_that_of_its_equation_of_state() {
    let rows = table("psat_lpg.csv").unwrap();
    assert_eq!(rows.len(), 20);
    for row in rows {
        for (gas, column) in [
            (Pure::Propane, "propane_coolprop_kPa_abs"),
            (Pure::Butane, "n-butane_coolprop_kPa_abs"),
            (Pure::Isobutane, "isobutane_coolprop_kPa_abs"),
        ] {
            near(gas.vapour_kpa(row["T_C"]), row[column], 0.01);
        }
    }
}

/// Source: NIST `WebBook`, Antoine equations within the ranges they were fitted for (coefficients from
/// memory, they reproduce a library's to all digits); 3 % for one Antoine fit.
#[test]
fn where_an_antoine_equation_was_fitted_it_agrees() {
    let antoine = |a: f64, b: f64, c: f64, kelvin: f64| 100.0 * libm::exp10(a - b / (kelvin + c));
    for celsius in [5.0, 15.0, 30.0, 50.0] {
        let kelvin: f64 = celsius + 273.15;
        near(Pure::Propane.vapour_kpa(celsius), antoine(4.53678, 1149.36, 24.906, kelvin), 0.03);
        near(Pure::Butane.vapour_kpa(celsius), antoine(4.35576, 1175.581, -2.071, kelvin), 0.03);
        near(Pure::Isobutane.vapour_kpa(celsius), antoine(4.3281, 1132.108, 0.918, kelvin), 0.03);
    }
    for celsius in [-45.0, -20.0, -1.0] {
        let theirs = antoine(3.85002, 909.65, -36.146, celsius + 273.15);
        near(Pure::Butane.vapour_kpa(celsius), theirs, 0.03);
    }
}

/// Source: BS 4250:1997 as quoted by a market report: at 40 °C at most 505 kPa (butane) and 1550 kPa
/// (propane) above the air; pure gases lie below.
#[test]
fn pure_gases_stay_below_the_limits_of_commercial_ones() {
    assert!(Pure::Butane.vapour_kpa(40.0) - 101.325 < 505.0);
    assert!(Pure::Propane.vapour_kpa(40.0) - 101.325 < 1_550.0);
}

/// Source: Raoult's law with `CoolProp`'s pure gases (0.1 %), and `CoolProp`'s own mixture (5 %).
#[test]
fn mixtures_hold_raoult_and_the_equation_of_state() {
    let rows = table("lpg_mix_bubble.csv").unwrap();
    let bases = words("lpg_mix_bubble.csv").unwrap();
    assert_eq!(rows.len(), bases.len());
    assert!(rows.len() >= 90, "{}", rows.len());
    for (row, basis) in rows.iter().zip(bases) {
        if basis["basis"] == "mass" {
            near(by_mole(row["propane_frac_basis"]), row["x_propane_mole"], 0.001);
        }
        let ours = bubble_kpa(row["x_propane_mole"], row["T_C"]);
        near(ours.upper, row["P_raoult_kPa"], 0.001);
        near(ours.upper, row["P_HEOS_bubble_kPa"], 0.05);
        let slack = Between::about(row["P_HEOS_bubble_kPa"], 0.001);
        assert!(ours.lower <= slack.upper && ours.upper >= slack.lower, "{row:?}");
    }
}

/// Source: the same pressures: where 0.3 bar are left above the air; 0.1 °C, mixtures by Raoult.
#[test]
fn each_gas_flows_from_where_the_table_has_it() {
    assert_eq!(INLET_KPA.to_bits(), 30.0_f64.to_bits());
    for (share, from) in [(1.0, -36.06), (0.0, 6.53)] {
        assert!((flows_from_c(share).lower - from).abs() <= 0.1, "{share}");
    }
    let mixtures = [
        (0.9, -33.9),
        (0.7, -29.0),
        (0.6, -26.0),
        (0.5, -22.6),
        (0.4, -18.7),
        (0.3, -14.1),
        (0.1, -1.9),
    ];
    for (share, from) in mixtures {
        let ours = flows_from_c(share);
        assert!((ours.lower - from).abs() <= 0.1 && ours.upper >= ours.lower, "{share}: {ours:?}");
    }
}

/// A litre of what holds so much propane by mass, at 15 °C. Unit: kg/L.
fn at_15(by_mass: f64) -> Between {
    kg_per_l(Between::exactly(by_mass), Between::exactly(15.0))
}

/// Source: `CoolProp` 8.0.0 (reference equations of state), -45 to 50 °C; 0.5 %.
#[test]
fn density_and_heat_of_evaporation_are_those_of_the_equation_of_state() {
    let rows = table("lpg_liquid_props.csv").unwrap();
    assert_eq!(rows.len(), 20);
    for row in rows {
        for (gas, name) in
            [(Pure::Propane, "propane"), (Pure::Butane, "n-butane"), (Pure::Isobutane, "isobutane")]
        {
            let of = |what: &str| row[format!("{name}_{what}").as_str()];
            near(gas.kg_per_l(row["T_C"]) * 1_000.0, of("rhoL"), 0.005);
            near(gas.evaporates_kj_per_kg(row["T_C"]), of("hfg"), 0.005);
        }
        for (by_mass, name) in [(1.0, "propane_rhoL"), (0.0, "n-butane_rhoL")] {
            let ours = kg_per_l(Between::exactly(by_mass), Between::exactly(row["T_C"]));
            assert!(ours.holds(row[name] / 1_000.0), "{row:?}");
        }
    }
}

/// Source: `CoolProp` 8.0.0: 0.3 kg/h of propane need 30 W of heat at 10 °C, a kilogram an hour 100.1 W there,
/// 104.1 W at 0 °C, of butane 104.5 W at 10 °C; 1 %.
#[test]
fn three_hundred_grams_an_hour_need_thirty_watts_of_heat() {
    for (kg_per_h, by_mass, celsius, watts) in [
        (0.3, 1.0, 10.0, 30.0),
        (1.0, 1.0, 10.0, 100.1),
        (1.0, 1.0, 0.0, 104.1),
        (1.0, 0.0, 10.0, 104.5),
    ] {
        let ours = evaporates_w(Between::exactly(kg_per_h), by_mass, celsius);
        near(ours.middle(), watts, 0.01);
        assert!(ours.holds(watts), "{ours:?}");
    }
}

/// Source: UK Government GHG Conversion Factors 2023; 2 % for commercial grades.
#[test]
fn heating_values_and_densities_hold_the_commercial_ones() {
    let rows = table("uk_ghg_2023_fuels.csv").unwrap();
    let names = words("uk_ghg_2023_fuels.csv").unwrap();
    let mut seen = 0;
    for (row, name) in rows.iter().zip(names) {
        let (kg_per_l, of) = match name["fuel"].as_str() {
            "Propane" => (at_15(1.0), NET_KWH_PER_KG.upper),
            "Butane" => (at_15(0.0), NET_KWH_PER_KG.lower),
            _ => continue,
        };
        near(of, row["net_kWh_per_kg"], 0.02);
        assert!(kg_per_l.holds(row["density_kg_per_L"]), "{row:?}");
        seen += 1;
    }
    assert_eq!(seen, 2);
}

/// Source: a published "1 kW = 78 g/h", and heats of combustion (77.69 propane, 78.75 butane); 1 %.
#[test]
fn a_kilowatt_burns_what_is_published() {
    let ours = burns_kg_per_h(Between::exactly(1.0)) * 1_000.0;
    near(ours.lower, 77.69, 0.01);
    near(ours.upper, 78.75, 0.01);
    near(ours.middle(), 78.0, 0.01);
}

/// Source: a consumer glossary of the gas trade, sizes of 5, 11 and 33 kg; 30 %.
#[test]
fn what_a_full_cylinder_gives_on_a_temperate_day_holds_the_guide() {
    let guide = [(5.0, [0.2, 0.5, 1.0]), (11.0, [0.3, 0.8, 1.5]), (33.0, [0.6, 1.8, 3.0])];
    for (contents, rates) in guide {
        for (draw, rate) in [Draw::Steady, Draw::HalfTheTime, Draw::Burst].into_iter().zip(rates) {
            let ours = gives_kg_per_h(contents, 1.0, 1.0, 15.0, draw);
            assert!(ours.holds(rate), "{contents} {draw:?}: {ours:?}");
        }
    }
}

/// Source: a US vaporisation chart of a 100 lb cylinder, kBTU/h at 0 to 70 °F: ratios of its rates; 10 %.
#[test]
fn the_rate_falls_with_the_air_as_the_chart_has_it() {
    let chart = [(0.0, 113.0), (20.0, 167.0), (40.0, 214.0), (60.0, 277.0), (70.0, 300.0)];
    let at = |fahrenheit: f64| {
        gives_kg_per_h(33.0, 1.0, 1.0, (fahrenheit - 32.0) / 1.8, Draw::Steady).middle()
    };
    for (fahrenheit, rate) in chart {
        near(at(fahrenheit) / at(70.0), rate / 300.0, 0.1);
    }
}

/// Source: `CoolProp`: 11 kg of propane are 141.6 kWh, 36.7 h at 0.3 kg/h; 1 %.
#[test]
fn a_cylinder_holds_the_heat_that_it_should() {
    let heat_kwh = 11.0 * NET_KWH_PER_KG.upper;
    near(heat_kwh, 141.6, 0.01);
    let draws_kw = 0.3 * NET_KWH_PER_KG.upper;
    near(heat_kwh / draws_kw, 36.7, 0.01);
    near(11.0 / burns_kg_per_h(Between::exactly(draws_kw)).lower, 36.7, 0.01);
}

/// Source: heats of combustion: 100 g/h of propane are 1.2872 kW; a fridge's 10 and 20 g/h 129 and 257 W;
/// 1 %.
#[test]
fn so_many_grams_an_hour_are_so_many_watts() {
    for (kg_per_h, kilowatts) in [(0.1, 1.2872), (0.01, 0.129), (0.02, 0.257)] {
        near(kg_per_h * NET_KWH_PER_KG.upper, kilowatts, 0.01);
        near(burns_kg_per_h(Between::exactly(kilowatts)).lower, kg_per_h, 0.01);
    }
}

/// Source: CSA B149.2, 80 % of the volume; `CoolProp` 8.0.0: at 15 °C that is 0.406 kg/L of propane; 0.01.
/// Filling ratios of older UN figures, which a full cylinder must not pass: propane 0.42, butane 0.51.
#[test]
fn filled_to_four_fifths_a_cylinder_stays_below_its_filling_ratio() {
    let (propane, butane) = (at_15(1.0) * 0.8, at_15(0.0) * 0.8);
    near(propane.middle(), 0.406, 0.005);
    assert!((propane.lower - 0.406).abs() <= 0.01, "{propane:?}");
    assert!(propane.upper <= 0.42 && butane.upper <= 0.51, "{propane:?} {butane:?}");
}

/// Source: the same: in the cold four fifths of propane weigh more than 0.42 kg/L, so that a limit in litres is told
/// in kilograms at 15 °C.
#[test]
fn filled_to_four_fifths_in_the_cold_it_would_pass_it() {
    let at = |celsius| kg_per_l(Between::exactly(1.0), Between::exactly(celsius)).middle() * 0.8;
    assert!(at(-20.0) > 0.42 && at(15.0) < 0.42);
    near(at(-20.0), 0.4436, 0.005);
}
