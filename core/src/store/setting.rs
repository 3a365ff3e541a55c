//! Table `setting`: small values of the app itself, such as the language last chosen.

use std::collections::BTreeMap;

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

/// Every value, by its key.
pub(super) fn read_all(connection: &Connection) -> Result<BTreeMap<String, String>> {
    let mut statement = connection.prepare_cached("SELECT key, value FROM setting")?;
    let rows = statement.query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?;
    Ok(rows.collect::<rusqlite::Result<_>>()?)
}

/// Puts those values under whose key nothing stands yet.
pub(super) fn put_new(connection: &Connection, values: &BTreeMap<String, String>) -> Result<()> {
    let mut statement = connection.prepare_cached(
        "INSERT INTO setting (key, value) VALUES (?1, ?2) ON CONFLICT (key) DO NOTHING",
    )?;
    for (key, value) in values {
        statement.execute([key, value])?;
    }
    Ok(())
}
