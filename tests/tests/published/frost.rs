//! Frost: ASHRAE's pipe, two textbook bodies, a table of tanks, the latent heat of water.

use stowfast_core::reckon::frost::pipe::Pipe;
use stowfast_core::reckon::frost::{Body, Until};
use stowfast_core::reckon::water::LATENT_KJ_PER_KG;
use stowfast_tests::table::table;

/// A tenth of an hour: what the air is in between does not matter where it stays the same.
const STEP_H: f64 = 0.1;
const STEPS_MAX: usize = 20_000;
const ZERO: Until = Until::Celsius(0.0);

#[track_caller]
fn near(ours: f64, theirs: f64, share: f64) {
    assert!((ours / theirs - 1.0).abs() <= share, "{ours} against {theirs}");
}

fn hours(body: Body, until: Until, start_c: f64, air_c: f64) -> f64 {
    body.reaches(until, start_c, std::iter::repeat_n(air_c, STEPS_MAX), STEP_H)
        .unwrap_or(f64::INFINITY)
}

fn fahrenheit(degrees: f64) -> f64 {
    (degrees - 32.0) / 1.8
}

fn pipe_h(pipe: Pipe, conducts_w_per_m_k: f64, start_c: f64, air_c: f64) -> f64 {
    let body = Body {
        water_kg: pipe.water_kg_per_m(),
        loss_w_per_k: pipe.loss_w_per_k_m(conducts_w_per_m_k, None),
    };
    hours(body, ZERO, start_c, air_c)
}

/// Source: ASHRAE Handbook, Fundamentals 2009, chapter 23, equation 1; its example of a steel pipe of
/// 2 in with 1.5 in of insulation of 0.30 BTU in/(h ft² °F), 42 °F: 1.4 h at −18 °F and 4.6 h at 20 °F
/// (computed: 1.378 and 4.583). Tolerance 2 %.
#[test]
fn still_water_in_an_insulated_pipe_comes_to_0_degrees_as_ashrae_has_it() {
    const MM_PER_IN: f64 = 25.4;
    const W_PER_M_K: f64 = 0.144_227_9;
    let pipe = Pipe {
        bore_mm: 2.067 * MM_PER_IN,
        outer_mm: 2.375 * MM_PER_IN,
        insulation_mm: 1.5 * MM_PER_IN,
    };
    let at = |air_f: f64| pipe_h(pipe, 0.30 * W_PER_M_K, fahrenheit(42.0), fahrenheit(air_f));
    near(at(-18.0), 1.378, 0.02);
    near(at(-18.0), 1.4, 0.02);
    near(at(20.0), 4.583, 0.02);
    near(at(20.0), 4.6, 0.02);
}

/// Source: the same in SI units, computed: 1.389 h. Tolerance 1 %.
#[test]
fn the_same_pipe_in_si_units() {
    let pipe = Pipe { bore_mm: 52.5, outer_mm: 60.3, insulation_mm: (136.5 - 60.3) / 2.0 };
    near(pipe_h(pipe, 0.0433, 5.56, -27.8), 1.389, 0.01);
}

/// What another substance is: a mass of water that holds as much heat.
fn body_of(kj_per_k: f64, loss_w_per_k: f64) -> Body {
    let of_1_kg = Body { water_kg: 1.0, loss_w_per_k }.heat_kj(1.0);
    Body { water_kg: kj_per_k / of_1_kg, loss_w_per_k }
}

/// Source: Incropera, example 5.1: h 400, k 20, c 400, ρ 8500, τ 1 s: a bead of 7.06e-4 m; from 25 to
/// 199 °C in gas of 200 °C: 5.2 s (5.16). Warming by 174 of 175 K is cooling by as much. 0.5 %.
#[test]
fn a_thermocouple_of_a_textbook_takes_its_five_seconds() {
    let diameter_m: f64 = 6.0 * 400.0 / (8_500.0 * 400.0);
    near(diameter_m, 7.06e-4, 0.005);
    let area_m2 = std::f64::consts::PI * diameter_m.powi(2);
    let kj_per_k = 8_500.0 * area_m2 * diameter_m / 6.0 * 400.0 / 1_000.0;
    let body = body_of(kj_per_k, 400.0 * area_m2);
    near(hours(body, Until::Celsius(1.0), 175.0, 0.0) * 3_600.0, 5.16, 0.005);
}

/// Source: Çengel, example 4-1: 1 mm, ρ 8500, c 320, h 210: b = 0.4632 s⁻¹, 99 % after 9.94 s. 0.5 %.
#[test]
fn another_thermocouple_takes_its_ten_seconds() {
    let area_m2 = std::f64::consts::PI * 1e-6;
    let body = body_of(8_500.0 * area_m2 * 1e-3 / 6.0 * 0.320, 210.0 * area_m2);
    let per_s = body.loss_w_per_k / (body.heat_kj(1.0) * 1_000.0);
    near(per_s, 0.4632, 0.005);
    near(hours(body, Until::Celsius(1.0), 100.0, 0.0) * 3_600.0, 9.94, 0.005);
}

/// Source: `freeze_lumped.csv`, computed by the closed formula. Tolerance 0.1 %; the table has three
/// decimals, of which the last is rounded.
#[test]
fn tanks_and_a_pipe_cool_and_freeze_as_the_table_has_it() {
    let rows = table("freeze_lumped.csv").unwrap();
    assert_eq!(rows.len(), 45);
    for row in rows {
        let body = Body { water_kg: row["V_L"], loss_w_per_k: row["UA_W_K"] };
        let at = |until| hours(body, until, row["Ti_C"], row["Ta_C"]);
        let same = |ours: f64, theirs: f64| {
            assert!((ours - theirs).abs() <= 0.001 * theirs + 0.000_5, "{ours}: {theirs}, {row:?}");
        };
        same(body.heat_kj(1.0) / (3.6 * body.loss_w_per_k), row["tau_h"]);
        let zero_h = at(ZERO);
        same(zero_h, row["t_to_0C_h"]);
        same(at(Until::Frozen(0.1)) - zero_h, row["t_freeze10pct_h"]);
        same(at(Until::Frozen(1.0)) - zero_h, row["t_freeze_all_h"]);
    }
}

/// Source: 6010 J/mol (`chemicals` 1.5.2) over 18.015 g/mol. Tolerance 0.5 %.
#[test]
fn ice_takes_its_latent_heat() {
    near(LATENT_KJ_PER_KG, 6_010.0 / 18.015, 0.005);
}
