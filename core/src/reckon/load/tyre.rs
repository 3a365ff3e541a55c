//! What tyres carry by the number that is moulded on them.

/// Load index and mass. Unit: kg for one tyre.
///
/// # Source
/// Standard load index of ISO 4000-1, as public tables print it. What was not seen printed is left out.
const CARRIES_KG: [(u32, f64); 23] = [
    (75, 387.0),
    (85, 515.0),
    (91, 615.0),
    (95, 690.0),
    (100, 800.0),
    (103, 875.0),
    (104, 900.0),
    (107, 975.0),
    (109, 1_030.0),
    (110, 1_060.0),
    (111, 1_090.0),
    (112, 1_120.0),
    (113, 1_150.0),
    (114, 1_180.0),
    (115, 1_215.0),
    (116, 1_250.0),
    (117, 1_285.0),
    (118, 1_320.0),
    (119, 1_360.0),
    (120, 1_400.0),
    (121, 1_450.0),
    (122, 1_500.0),
    (123, 1_550.0),
];

/// What one tyre carries; `None` of an index that is not in the table.
///
/// # Units
/// Result: kg.
#[must_use]
pub fn tyre_kg(load_index: u32) -> Option<f64> {
    CARRIES_KG.iter().find(|(index, _)| *index == load_index).map(|(_, kg)| *kg)
}

/// What the tyres of an axle carry: two, or four where they are twin. Twin tyres have an index of their
/// own, the second of the two that are moulded.
///
/// # Units
/// Result: kg.
#[must_use]
pub fn axle_kg(load_index: u32, twin: bool) -> Option<f64> {
    let tyres = if twin { 4.0 } else { 2.0 };
    tyre_kg(load_index).map(|kg| kg * tyres)
}
