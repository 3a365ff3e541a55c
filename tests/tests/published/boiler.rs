//! Water and its heating up: `CoolProp`, a second library, and a table of boilers without losses.

use stowfast_core::reckon::boiler::{Boiler, energy_kj};
use stowfast_core::reckon::water::{density_kg_per_l, heat_kj_per_kg, specific_heat_kj_per_kg_k};
use stowfast_tests::table::table;

#[track_caller]
fn near(ours: f64, theirs: f64, share: f64) {
    assert!((ours / theirs - 1.0).abs() <= share, "{ours} against {theirs}");
}

fn above_kj(from_c: f64, to_c: f64) -> f64 {
    heat_kj_per_kg(to_c) - heat_kj_per_kg(from_c)
}

/// Source: `CoolProp` 8.0.0 and `iapws` 1.5.5, at 101 325 Pa. Library comparison: 0.5 %. Heat contents are
/// compared as what lies between each and that of 5 °C: they count from a zero of their own.
#[test]
fn water_is_as_two_libraries_have_it() {
    let rows = table("water_props.csv").unwrap();
    assert_eq!(rows.len(), 20);
    for row in rows {
        let celsius = row["T_C"];
        near(density_kg_per_l(celsius) * 1_000.0, row["rho_kg_m3_CoolProp"], 0.005);
        near(density_kg_per_l(celsius) * 1_000.0, row["rho_IAPWS97"], 0.005);
        near(specific_heat_kj_per_kg_k(celsius), row["cp_kJ_kgK_CoolProp"], 0.005);
        near(specific_heat_kj_per_kg_k(celsius), row["cp_IAPWS97"], 0.005);
        if celsius > 5.0 {
            near(above_kj(5.0, celsius), row["h_kJ_kg_CoolProp"] - 21.1200, 0.005);
        }
    }
}

/// Source: the crate `seuif97` 2.3.8, `pt2h(0.101325, t)`: 42.1187 kJ/kg at 10 °C. Library comparison:
/// 0.5 %.
#[test]
fn a_third_library_agrees_on_the_heat_content() {
    for (celsius, kj) in [(50.0, 209.4129), (60.0, 251.2227), (70.0, 293.0753)] {
        near(above_kj(10.0, celsius), kj - 42.1187, 0.005);
    }
}

/// Source: `boiler_heatup.csv`, no losses, efficiency 1. Tolerance 0.3 %; times in the table have two
/// decimals, of which the last is rounded.
#[test]
fn without_losses_energy_and_time_are_those_of_the_table() {
    let rows = table("boiler_heatup.csv").unwrap();
    assert_eq!(rows.len(), 32);
    for row in rows {
        let (litres, from, to) = (row["V_L"], row["T_start_C"], row["T_end_C"]);
        near(energy_kj(litres, from, to), row["energy_kJ"], 0.003);
        near(energy_kj(litres, from, to) / 3_600.0, row["energy_kWh"], 0.003);
        let boiler = Boiler { volume_l: litres, loss_w_per_k: 0.0, room_c: 20.0 };
        let powers = [450, 750, 850, 1_300, 1_500, 1_600, 1_800, 2_000, 4_000, 6_000];
        for power_w in powers {
            let ours = boiler.heat(from, to, f64::from(power_w)).unwrap().hours * 60.0;
            let theirs = row[&format!("t_min_{power_w}W")];
            assert!((ours - theirs).abs() <= 0.003 * theirs + 0.005, "{ours}: {theirs}, {row:?}");
        }
    }
}
