//! Table `reading`: what a gauge showed, in the entry that says so.

use rusqlite::{Connection, params};

use crate::error::{Error, Result};
use crate::state::{GaugeUnit, Reading};

/// Reads the readings of a vehicle's entries after one sequence number; also tells, when prepared,
/// whether the table has its columns.
pub(super) const SELECT: &str = "
    SELECT reading.entry_seq, reading.gauge, reading.unit, reading.value_milli
    FROM reading JOIN entry ON entry.seq = reading.entry_seq
    WHERE entry.vehicle_id = ?1 AND entry.seq > ?2
    ORDER BY reading.entry_seq";

/// Writes the reading of one entry.
pub(super) fn insert(connection: &Connection, entry_seq: i64, reading: &Reading) -> Result<()> {
    connection
        .prepare_cached(
            "INSERT INTO reading (entry_seq, gauge, unit, value_milli) VALUES (?1, ?2, ?3, ?4)",
        )?
        .execute(params![entry_seq, reading.gauge, code_of(reading.unit), reading.value_milli])?;
    Ok(())
}

/// The readings of a vehicle's entries after `seq`, each with the entry that it belongs to, by
/// sequence number.
pub(super) fn read_since(
    connection: &Connection,
    vehicle: i64,
    seq: i64,
) -> Result<Vec<(i64, Reading)>> {
    let mut statement = connection.prepare_cached(SELECT)?;
    let mut rows = statement.query([vehicle, seq])?;
    let mut readings = Vec::new();
    while let Some(row) = rows.next()? {
        let entry_seq = row.get(0)?;
        let code: String = row.get(2)?;
        let unit = unit_of(&code)
            .ok_or_else(|| Error::Internal(format!("entry {entry_seq}: no unit {code:?}")))?;
        readings.push((entry_seq, Reading { gauge: row.get(1)?, unit, value_milli: row.get(3)? }));
    }
    Ok(readings)
}

fn code_of(unit: GaugeUnit) -> &'static str {
    match unit {
        GaugeUnit::Lamps => "lamps",
        GaugeUnit::Percent => "percent",
        GaugeUnit::Litres => "litres",
        GaugeUnit::Volts => "volts",
        GaugeUnit::Kilograms => "kilograms",
        GaugeUnit::Words => "words",
    }
}

/// The inverse of [`code_of`]; `None` for a code that it never writes.
fn unit_of(code: &str) -> Option<GaugeUnit> {
    Some(match code {
        "lamps" => GaugeUnit::Lamps,
        "percent" => GaugeUnit::Percent,
        "litres" => GaugeUnit::Litres,
        "volts" => GaugeUnit::Volts,
        "kilograms" => GaugeUnit::Kilograms,
        "words" => GaugeUnit::Words,
        _ => return None,
    })
}
