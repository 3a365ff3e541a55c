//! Table `finding`: what was said in the search for the cause of a fault, in the entry that says so.

use rusqlite::{Connection, params};

use crate::error::Result;
use crate::state::Finding;

/// Reads the findings of a vehicle's entries after one sequence number; also tells, when prepared,
/// whether the table has its columns.
pub(super) const SELECT: &str = "
    SELECT finding.entry_seq, finding.symptom, finding.fitting, finding.asked, finding.answer
    FROM finding JOIN entry ON entry.seq = finding.entry_seq
    WHERE entry.vehicle_id = ?1 AND entry.seq > ?2
    ORDER BY finding.entry_seq";

/// Writes the finding of one entry.
pub(super) fn insert(connection: &Connection, entry_seq: i64, finding: &Finding) -> Result<()> {
    let Finding { symptom, fitting, asked, answer } = finding;
    connection
        .prepare_cached(
            "INSERT INTO finding (entry_seq, symptom, fitting, asked, answer)
             VALUES (?1, ?2, ?3, ?4, ?5)",
        )?
        .execute(params![entry_seq, symptom, fitting, asked, answer])?;
    Ok(())
}

/// The findings of a vehicle's entries after `seq`, each with the entry that it belongs to, by
/// sequence number.
pub(super) fn read_since(
    connection: &Connection,
    vehicle: i64,
    seq: i64,
) -> Result<Vec<(i64, Finding)>> {
    let mut statement = connection.prepare_cached(SELECT)?;
    let rows = statement.query_map([vehicle, seq], |row| {
        let finding = Finding {
            symptom: row.get(1)?,
            fitting: row.get(2)?,
            asked: row.get(3)?,
            answer: row.get(4)?,
        };
        Ok((row.get(0)?, finding))
    })?;
    Ok(rows.collect::<rusqlite::Result<_>>()?)
}
