//! Opening: look before writing, set aside what is damaged, restore, upgrade, back up.

use std::path::Path;
use std::time::Duration;

use rusqlite::config::DbConfig;
use rusqlite::{Connection, OpenFlags};

use super::Opened;
use super::backup::Shelf;
use super::damage;
use super::schema::{self, Found};
use crate::clock::Stamp;
use crate::error::{Error, Result};

/// How long to wait for another process that writes. Unit: ms. Common practice, no source.
const BUSY_MS: i64 = 5_000;

/// `PRAGMA synchronous` by number, as it is read back.
const FULL: i64 = 2;

/// Opens the database at `path`; see [`super::Store::open`].
pub(super) fn open(path: &Path, now: &Stamp, migrations: &[&str]) -> Result<(Connection, Opened)> {
    if path.to_str().is_none() {
        return Err(Error::InvalidInput {
            field: format!("path of the database, {}", path.display()),
            expected: "text in UTF-8".into(),
        });
    }
    let shelf = Shelf::beside(path)?;
    if !damage::has_vanished(path, &shelf)? {
        match attempt(path, &shelf, now, migrations) {
            Err(error) if damage::is_damage(&error) => {}
            settled => return settled,
        }
    }
    let set_aside = damage::set_aside(path, now)?;
    let restored_from = shelf.restore(path, is_sound)?;
    match attempt(path, &shelf, now, migrations) {
        Ok((connection, opened)) => Ok((connection, Opened { set_aside, restored_from, ..opened })),
        Err(error) if damage::is_damage(&error) => {
            Err(Error::StorageDamaged { kept: set_aside.unwrap_or_else(|| path.to_owned()) })
        }
        Err(error) => Err(error),
    }
}

/// An empty database at the newest version that is gone when closed.
pub(super) fn in_memory(migrations: &[&str]) -> Result<Connection> {
    let mut connection = Connection::open_in_memory()?;
    schema::migrate(&mut connection, migrations)?;
    set_foreign_keys(&connection, true)?;
    Ok(connection)
}

/// Opens what stands at `path`, without a second try. Until the file is known to be ours and
/// sound, nothing is written to it.
fn attempt(
    path: &Path,
    shelf: &Shelf,
    now: &Stamp,
    migrations: &[&str],
) -> Result<(Connection, Opened)> {
    let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_CREATE;
    let mut connection = connect(path, flags)?;
    let supported = schema::newest(migrations);
    let found = schema::identify(&connection, supported)?;
    check(&connection, found, path)?;

    prepare(&connection)?;
    if matches!(found, Found::Ours(version) if version < supported) {
        shelf.store_before_upgrade(&connection, now)?;
    }
    set_foreign_keys(&connection, false)?;
    let created = schema::migrate(&mut connection, migrations)? == 0;
    set_foreign_keys(&connection, true)?;
    if !schema::is_readable(&connection)? {
        return Err(Error::StorageDamaged { kept: path.to_owned() });
    }

    let mut backup_failed = None;
    if !created && let Err(error) = shelf.store_daily(&connection, now) {
        if damage::is_damage(&error) {
            return Err(error);
        }
        backup_failed = Some(error);
    }
    connection.set_db_config(DbConfig::SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, false)?;
    Ok((connection, Opened { created, set_aside: None, restored_from: None, backup_failed }))
}

/// Connects so that closing again leaves the file, and a `-wal` with something in it, as it was.
fn connect(path: &Path, flags: OpenFlags) -> Result<Connection> {
    let keep_wal = damage::has_bytes(&damage::beside(path, "-wal"))?;
    let connection = Connection::open_with_flags(path, flags | OpenFlags::SQLITE_OPEN_NO_MUTEX)?;
    connection.set_db_config(DbConfig::SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, keep_wal)?;
    connection.busy_timeout(Duration::from_millis(BUSY_MS.unsigned_abs()))?;
    confirm(&connection, "busy_timeout", BUSY_MS)?;
    Ok(connection)
}

/// Fails as damage unless the file is whole and SQLite's own check of every page and row passes.
fn check(connection: &Connection, found: Found, path: &Path) -> Result<()> {
    let page_bytes: u32 = connection.pragma_query_value(None, "page_size", |row| row.get(0))?;
    let verdict: String = connection.pragma_query_value(None, "quick_check", |row| row.get(0))?;
    if found == Found::Broken || verdict != "ok" || damage::is_cut(path, page_bytes)? {
        return Err(Error::StorageDamaged { kept: path.to_owned() });
    }
    Ok(())
}

/// Whether a backup can stand in for the database. One by a newer version can: it is refused
/// later, untouched.
fn is_sound(backup: &Path) -> bool {
    let sound = || {
        let connection = connect(backup, OpenFlags::SQLITE_OPEN_READ_ONLY)?;
        let found = schema::identify(&connection, i64::MAX)?;
        check(&connection, found, backup)?;
        Ok::<_, Error>(matches!(found, Found::Ours(_)))
    };
    sound().unwrap_or(false)
}

/// Settings under which a commit survives a power cut.
///
/// # Source
/// SQLite documentation, `PRAGMA synchronous`: in WAL mode only FULL makes each commit durable.
fn prepare(connection: &Connection) -> Result<()> {
    let mode: String =
        connection.pragma_update_and_check(None, "journal_mode", "wal", |row| row.get(0))?;
    if mode != "wal" {
        return Err(Error::Internal(format!("journal_mode is {mode}, not wal")));
    }
    connection.pragma_update(None, "synchronous", FULL)?;
    confirm(connection, "synchronous", FULL)
}

fn set_foreign_keys(connection: &Connection, on: bool) -> Result<()> {
    connection.pragma_update(None, "foreign_keys", on)?;
    confirm(connection, "foreign_keys", i64::from(on))
}

/// Reads a setting back.
fn confirm(connection: &Connection, pragma: &str, wanted: i64) -> Result<()> {
    let found: i64 = connection.pragma_query_value(None, pragma, |row| row.get(0))?;
    if found != wanted {
        return Err(Error::Internal(format!("{pragma} is {found}, not {wanted}")));
    }
    Ok(())
}
