//! Table `setting`: small values of the app itself, such as the language last chosen.

use rusqlite::{Connection, OptionalExtension};

use crate::error::Result;

/// Reads one value; also tells, when prepared, whether the table has its columns.
pub(super) const SELECT: &str = "SELECT value FROM setting WHERE key = ?1";

pub(super) fn get(connection: &Connection, key: &str) -> Result<Option<String>> {
    Ok(connection.prepare_cached(SELECT)?.query_row([key], |row| row.get(0)).optional()?)
}

pub(super) fn put(connection: &Connection, key: &str, value: &str) -> Result<()> {
    connection
        .prepare_cached(
            "INSERT INTO setting (key, value) VALUES (?1, ?2)
             ON CONFLICT (key) DO UPDATE SET value = excluded.value",
        )?
        .execute([key, value])?;
    Ok(())
}
