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
    let number = number.trim().replace(',', ".").parse().map_err(|_| Error::InvalidInput {
        field: row.title.clone(),
        expected: row.expects.clone(),
    })?;
    Ok((unit, number))
}

/// Something that a gauge may show, as it is typed.
pub(crate) fn example(row: &GaugeRow) -> String {
    let middle = f64::midpoint(row.value_min, row.value_max).round();
    let unit = match row.unit {
        GaugeUnit::Words => {
            return row.choices.first().map_or_else(String::new, |choice| choice.text.clone());
        }
        GaugeUnit::Lamps => "",
        GaugeUnit::Percent => "%",
        GaugeUnit::Litres => "l",
        GaugeUnit::Volts => "V",
        GaugeUnit::Kilograms => "kg",
    };
    format!("{middle}{unit}")
}
