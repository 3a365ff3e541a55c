//! Table `vehicle`: what is carried for each vehicle beside its log.

use rusqlite::{Connection, OptionalExtension, params};

use crate::clock::Stamp;
use crate::error::{Error, Result};

/// One vehicle as it is stored.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct VehicleRow {
    /// Names the vehicle in this database, for good.
    pub id: i64,
    /// What its people call it; never empty.
    pub title: String,
    /// The pack in use, as the file had it.
    pub pack_toml: String,
    /// The pack that was in use before, to fall back on where `pack_toml` no longer reads.
    pub good_pack_toml: Option<String>,
    /// When the vehicle was added. Unit: ms since 1970-01-01 UTC.
    pub added_utc_ms: i64,
    /// The vehicle that the app shows; one at most.
    pub current: bool,
}

/// Reads every column; also tells, when prepared, whether the table has them.
pub(super) const SELECT: &str = "
    SELECT id, title, pack_toml, good_pack_toml, added_utc_ms, current
    FROM vehicle ORDER BY id";

pub(super) fn read_all(connection: &Connection) -> Result<Vec<VehicleRow>> {
    let mut statement = connection.prepare_cached(SELECT)?;
    let rows = statement.query_map([], |row| {
        Ok(VehicleRow {
            id: row.get(0)?,
            title: row.get(1)?,
            pack_toml: row.get(2)?,
            good_pack_toml: row.get(3)?,
            added_utc_ms: row.get(4)?,
            current: row.get(5)?,
        })
    })?;
    Ok(rows.collect::<rusqlite::Result<_>>()?)
}

pub(super) fn add(
    connection: &Connection,
    title: &str,
    pack_toml: &str,
    now: &Stamp,
) -> Result<i64> {
    require_title(title)?;
    connection
        .prepare_cached(
            "INSERT INTO vehicle (title, pack_toml, added_utc_ms, current)
             VALUES (?1, ?2, ?3, NOT EXISTS (SELECT 1 FROM vehicle WHERE current = 1))",
        )?
        .execute(params![title, pack_toml, now.utc_ms])?;
    Ok(connection.last_insert_rowid())
}

pub(super) fn replace_pack(
    connection: &Connection,
    vehicle: i64,
    title: &str,
    pack_toml: &str,
    good_pack_toml: Option<&str>,
) -> Result<()> {
    require_title(title)?;
    let changed = connection
        .prepare_cached(
            "UPDATE vehicle SET title = ?2, pack_toml = ?3, good_pack_toml = ?4 WHERE id = ?1",
        )?
        .execute(params![vehicle, title, pack_toml, good_pack_toml])?;
    if changed == 1 { Ok(()) } else { Err(not_found(vehicle)) }
}

pub(super) fn choose(connection: &Connection, vehicle: i64) -> Result<()> {
    require(connection, vehicle)?;
    // Two steps, because the index allows one current row at any moment.
    connection.prepare_cached("UPDATE vehicle SET current = 0 WHERE current = 1")?.execute([])?;
    connection
        .prepare_cached("UPDATE vehicle SET current = 1 WHERE id = ?1")?
        .execute([vehicle])?;
    Ok(())
}

/// Fails with [`Error::NotFound`] unless there is such a vehicle.
pub(super) fn require(connection: &Connection, vehicle: i64) -> Result<()> {
    connection
        .prepare_cached("SELECT 1 FROM vehicle WHERE id = ?1")?
        .query_row([vehicle], |_| Ok(()))
        .optional()?
        .ok_or_else(|| not_found(vehicle))
}

fn require_title(title: &str) -> Result<()> {
    if title.is_empty() {
        return Err(Error::InvalidInput {
            field: "title of the vehicle".into(),
            expected: "some text".into(),
        });
    }
    Ok(())
}

fn not_found(vehicle: i64) -> Error {
    Error::NotFound { kind: "vehicle", id: vehicle.to_string() }
}
