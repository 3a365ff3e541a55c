//! The numbers of what the dash shows: diesel and urea, read like water.

use stowfast_core::engine::GaugeUnit;

use super::Follows::{self, Reading};
use super::{LAMPS, LITRES, PERCENT};

/// As of [`super::NUMBERS`].
pub(super) const ROWS: [(&str, [&str; 2], Follows); 8] = [
    (
        "diesel_filler.band_edges_pct",
        ["[2, 12, 90]", "[2, 50, 90]"],
        Reading(PERCENT, GaugeUnit::Percent, 35.0),
    ),
    (
        "diesel_filler.lamp_steps_pct",
        ["[5, 33, 66, 95]", "[1, 5, 8, 12]"],
        Reading(LAMPS, GaugeUnit::Lamps, 2.0),
    ),
    ("diesel_filler.gauge_error_pct", ["1", "30"], Reading(PERCENT, GaugeUnit::Percent, 50.0)),
    ("diesel_filler.litres_error_l", ["1", "30"], Reading(LITRES, GaugeUnit::Litres, 40.0)),
    (
        "urea_tank.band_edges_pct",
        ["[2, 20, 90]", "[2, 60, 90]"],
        Reading(PERCENT, GaugeUnit::Percent, 40.0),
    ),
    (
        "urea_tank.lamp_steps_pct",
        ["[5, 33, 66, 95]", "[1, 5, 8, 12]"],
        Reading(LAMPS, GaugeUnit::Lamps, 2.0),
    ),
    ("urea_tank.gauge_error_pct", ["1", "30"], Reading(PERCENT, GaugeUnit::Percent, 50.0)),
    ("urea_tank.litres_error_l", ["0.5", "4"], Reading(LITRES, GaugeUnit::Litres, 5.0)),
];
