//! Table `figure`: a number that the people on board told, in the entry that says so.

use rusqlite::{Connection, params};

use crate::error::Result;
use crate::state::Figure;

/// Reads the figures of a vehicle's entries after one sequence number; also tells, when prepared,
/// whether the table has its columns.
pub(super) const SELECT: &str = "
    SELECT figure.entry_seq, figure.figure, figure.value_milli
    FROM figure JOIN entry ON entry.seq = figure.entry_seq
    WHERE entry.vehicle_id = ?1 AND entry.seq > ?2
    ORDER BY figure.entry_seq";

/// Writes the figure of one entry.
pub(super) fn insert(connection: &Connection, entry_seq: i64, figure: &Figure) -> Result<()> {
    connection
        .prepare_cached("INSERT INTO figure (entry_seq, figure, value_milli) VALUES (?1, ?2, ?3)")?
        .execute(params![entry_seq, figure.figure, figure.value_milli])?;
    Ok(())
}

/// The figures of a vehicle's entries after `seq`, each with the entry that it belongs to, by
/// sequence number.
pub(super) fn read_since(
    connection: &Connection,
    vehicle: i64,
    seq: i64,
) -> Result<Vec<(i64, Figure)>> {
    let mut statement = connection.prepare_cached(SELECT)?;
    let rows = statement.query_map([vehicle, seq], |row| {
        Ok((row.get(0)?, Figure { figure: row.get(1)?, value_milli: row.get(2)? }))
    })?;
    Ok(rows.collect::<rusqlite::Result<_>>()?)
}
