//! The shape of the database, as numbered steps from nothing to the newest version.

use rusqlite::{Connection, ErrorCode, TransactionBehavior};

use super::{entry, fact, figure, finding, photo, reading, setting, vehicle};
use crate::error::{Error, Result};

/// The steps: the first makes version 1 of nothing, the next version 2 of that. A step that was
/// released is never edited.
pub(super) const MIGRATIONS: &[&str] = &[
    include_str!("schema/001_log.sql"),
    include_str!("schema/002_reading.sql"),
    include_str!("schema/003_gas.sql"),
    include_str!("schema/004_finding.sql"),
    include_str!("schema/005_figure.sql"),
    include_str!("schema/006_photo.sql"),
];

/// Marks a database as ours: `Stow` in ASCII.
pub(super) const APPLICATION_ID: i64 = 0x5374_6f77;

/// What a file turned out to be, before anything was written to it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Found {
    /// No tables yet.
    Empty,
    /// Ours, at this version.
    Ours(i64),
    /// Ours by its mark, but impossible as it stands.
    Broken,
}

/// Tells what the file is, without writing to it.
///
/// # Errors
/// [`Error::NewerDatabase`], or [`Error::InvalidInput`] for another program's database.
pub(super) fn identify(connection: &Connection, supported: i64) -> Result<Found> {
    let version = number(connection, "user_version")?;
    let mark = number(connection, "application_id")?;
    let parts: i64 =
        connection.query_row("SELECT count(*) FROM sqlite_schema", [], |row| row.get(0))?;
    if (version, mark, parts) == (0, 0, 0) {
        return Ok(Found::Empty);
    }
    if mark != APPLICATION_ID {
        return Err(Error::InvalidInput {
            field: format!("database {}", connection.path().unwrap_or_default()),
            expected: "one that Stowfast wrote".into(),
        });
    }
    if version > supported {
        return Err(Error::NewerDatabase { found: version, supported });
    }
    Ok(if version > 0 && parts > 0 { Found::Ours(version) } else { Found::Broken })
}

/// Takes the pending steps, all in one transaction, and gives the version that they started
/// from. Foreign keys must be off, as SQLite asks for steps that rebuild a table.
///
/// # Errors
/// [`Error::Internal`] for a step that leaves a dangling reference; [`Error::StorageFull`] or
/// [`Error::Database`] where SQLite refuses. The file is then as it was.
pub(super) fn migrate(connection: &mut Connection, migrations: &[&str]) -> Result<i64> {
    let tx = connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
    // Read again under the lock: another process may have been quicker.
    let version = number(&tx, "user_version")?;
    let taken = usize::try_from(version).unwrap_or(usize::MAX);
    let pending = migrations.get(taken..).unwrap_or_default();
    if pending.is_empty() {
        return Ok(version);
    }
    for step in pending {
        tx.execute_batch(step)?;
    }
    let mut dangling = Vec::new();
    tx.pragma_query(None, "foreign_key_check", |row| {
        dangling.push(row.get::<_, String>(0)?);
        Ok(())
    })?;
    if let Some(table) = dangling.first() {
        return Err(Error::Internal(format!("upgrade leaves a dangling reference in {table}")));
    }
    tx.pragma_update(None, "application_id", APPLICATION_ID)?;
    tx.pragma_update(None, "user_version", newest(migrations))?;
    tx.commit()?;
    Ok(version)
}

/// The version that all the steps lead to.
pub(super) fn newest(migrations: &[&str]) -> i64 {
    i64::try_from(migrations.len()).unwrap_or(i64::MAX)
}

/// Whether every table still has the columns that the row modules read.
///
/// # Errors
/// Whatever kept SQLite from telling.
pub(super) fn is_readable(connection: &Connection) -> Result<bool> {
    let selects = [
        vehicle::SELECT,
        entry::SELECT,
        fact::SELECT,
        reading::SELECT,
        finding::SELECT,
        figure::SELECT,
        photo::SELECT,
        setting::SELECT,
    ];
    for select in selects {
        if let Err(error) = connection.prepare_cached(select) {
            // A missing name is an error of the SQL, which has no code of its own.
            return match error.sqlite_error_code() {
                Some(ErrorCode::Unknown) | None => Ok(false),
                Some(_) => Err(error.into()),
            };
        }
    }
    Ok(true)
}

fn number(connection: &Connection, pragma: &str) -> Result<i64> {
    Ok(connection.pragma_query_value(None, pragma, |row| row.get(0))?)
}
