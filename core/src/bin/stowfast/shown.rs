//! What an owner types that a gauge shows: `2`, `45%`, `12.3kg`, `12,3 kg`, or a word of its own.

use stowfast_core::engine::{GaugeRow, GaugeUnit};
use stowfast_core::{Error, Result};

/// Endings that name a unit, the longer ones first.
const ENDINGS: [(&str, GaugeUnit); 7] = [
    ("litres", GaugeUnit::Litres),
    ("per cent", GaugeUnit::Percent),
    ("volts", GaugeUnit::Volts),
    ("kg", GaugeUnit::Kilograms),
    ("%", GaugeUnit::Percent),
    ("l", GaugeUnit::Litres),
    ("v", GaugeUnit::Volts),
];

/// What was typed, as unit and number: a unit that is left out is the gauge's own.
///
/// # Errors
/// [`Error::InvalidInput`] where it is neither a number nor a word that the gauge shows.
pub(crate) fn of(row: &GaugeRow, typed: &str) -> Result<(GaugeUnit, f64)> {
    let typed = typed.trim().to_lowercase();
    if let Some(choice) = row.choices.iter().find(|choice| choice.text.to_lowercase() == typed) {
        return Ok((row.unit, choice.value));
    }
    let named = ENDINGS.iter().find_map(|(end, unit)| Some((typed.strip_suffix(end)?, *unit)));
    let (number, unit) = named.unwrap_or((&typed, row.unit));
    let number = number
        .trim()
        .replace(',', ".")
        .parse()
        .map_err(|_| Error::InvalidInput { field: row.id.clone(), expected: takes(row) })?;
    Ok((unit, number))
}

/// What a gauge can show: its range with the unit, or its words.
pub(crate) fn takes(row: &GaugeRow) -> String {
    if row.unit == GaugeUnit::Words {
        let words: Vec<_> = row.choices.iter().map(|choice| choice.text.as_str()).collect();
        return words.join(", ");
    }
    format!("{} to {} {}", row.value_min, row.value_max, unit(row.unit))
}

fn unit(unit: GaugeUnit) -> &'static str {
    match unit {
        GaugeUnit::Lamps => "lamps lit",
        GaugeUnit::Percent => "per cent",
        GaugeUnit::Litres => "litres",
        GaugeUnit::Volts => "volts",
        GaugeUnit::Kilograms => "kg",
        GaugeUnit::Words => "as seen",
    }
}
