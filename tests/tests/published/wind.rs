//! Wind: the Beaufort scale as a national weather service prints it, and BS 6399-2.

use stowfast_core::reckon::wind::{mean_ms, pressure_pa};
use stowfast_tests::table::table;

/// Source: as above, lower ends in m/s to a tenth; exact.
#[test]
fn each_beaufort_number_begins_where_the_scale_has_it() {
    let rows = table("wind.csv").unwrap();
    assert_eq!(rows.len(), 13);
    for (number, row) in rows.iter().enumerate() {
        assert_eq!(mean_ms(number).lower.to_bits(), row["low_ms"].to_bits(), "{number}");
    }
}

/// Source: BS 6399-2, clause 2.1.2.1, q = 0.613 v²; the table rounds to 0.01 Pa.
#[test]
fn the_pressure_of_a_wind_is_that_of_the_table() {
    for row in table("wind.csv").unwrap() {
        assert!((pressure_pa(row["low_ms"]) - row["q_low_Pa_0613"]).abs() <= 0.005, "{row:?}");
    }
}

/// Source: a worked example of BS 6399-2: 29.89 m/s make 0.55 kN/m², printed with two digits.
#[test]
fn a_worked_example_of_the_standard_comes_out() {
    assert!((pressure_pa(29.89) / 1_000.0 - 0.55).abs() <= 0.005);
}
