//! Damage: what counts as such, and moving a damaged database out of the way, whole.

use std::ffi::OsString;
use std::fs::{self, File};
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

use chrono::{DateTime, NaiveDateTime};
use rusqlite::ErrorCode;

use super::backup::Shelf;
use crate::clock::Stamp;
use crate::error::{Error, Result};

/// UTC as file names have it: sorts by time, and holds nothing that a file system forbids.
const UTC_NAME: &str = "%Y%m%dT%H%M%S%3fZ";

/// Whether an error says that the file is damaged, rather than that it cannot be had.
pub(super) fn is_damage(error: &Error) -> bool {
    match error {
        Error::StorageDamaged { .. } => true,
        Error::Database(error) => matches!(
            error.sqlite_error_code(),
            Some(ErrorCode::DatabaseCorrupt | ErrorCode::NotADatabase)
        ),
        Error::Pack { .. }
        | Error::Catalogue { .. }
        | Error::InvalidInput { .. }
        | Error::NotFound { .. }
        | Error::Conflict { .. }
        | Error::StorageFull
        | Error::NewerDatabase { .. }
        | Error::Io { .. }
        | Error::Internal(_) => false,
    }
}

/// Whether there was a database here and its main file is gone or empty: by somebody's hand, or
/// because a program that was setting it aside was killed half-way. SQLite would begin anew and
/// drop a `-wal` that still stands.
pub(super) fn has_vanished(db: &Path, shelf: &Shelf) -> Result<bool> {
    Ok(!has_bytes(db)? && (has_bytes(&beside(db, "-wal"))? || shelf.newest()?.is_some()))
}

/// Whether the file ends within a page, which SQLite would fill with zeros. With a `-wal` that is
/// as it should be: a checkpoint was cut short, and the whole page stands there.
pub(super) fn is_cut(db: &Path, page_bytes: u32) -> Result<bool> {
    let odd = length(db)?.checked_rem(page_bytes.into()).is_none_or(|rest| rest > 0);
    Ok(odd && !has_bytes(&beside(db, "-wal"))?)
}

/// Whether a file is there and not empty.
pub(super) fn has_bytes(path: &Path) -> Result<bool> {
    Ok(length(path)? > 0)
}

/// The length of a file, in bytes; 0 if it is not there.
fn length(path: &Path) -> Result<u64> {
    match fs::metadata(path) {
        Ok(metadata) => Ok(metadata.len()),
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(0),
        Err(error) => Err(io_error(path, error)),
    }
}

/// Moves a database with the files that SQLite keeps beside it into `damaged/<utc>/`, which is
/// returned; `None` if there was nothing to move.
///
/// # Errors
/// [`Error::StorageDamaged`] where that fails, saying where the files are.
pub(super) fn set_aside(db: &Path, now: &Stamp) -> Result<Option<PathBuf>> {
    // The main file first: if this is cut short, its absence tells the next start to go on.
    let files: Vec<PathBuf> = ["", "-wal", "-shm", "-journal"]
        .iter()
        .map(|suffix| beside(db, suffix))
        .filter(|file| fs::symlink_metadata(file).is_ok())
        .collect();
    if files.is_empty() {
        return Ok(None);
    }
    let folder = folder_for(db, now).map_err(|_| Error::StorageDamaged { kept: db.to_owned() })?;
    let mut kept = db;
    for file in &files {
        let moved = file.file_name().map(|name| fs::rename(file, folder.join(name)));
        if !matches!(moved, Some(Ok(()))) {
            return Err(Error::StorageDamaged { kept: kept.to_owned() });
        }
        kept = &folder;
    }
    for folder in [&folder, &folder_of(db)] {
        sync_folder(folder).map_err(|_| Error::StorageDamaged { kept: kept.to_owned() })?;
    }
    Ok(Some(folder))
}

/// Makes an empty `damaged/<utc>/`, with a number behind it if that name is taken.
fn folder_for(db: &Path, now: &Stamp) -> io::Result<PathBuf> {
    let damaged = folder_of(db).join("damaged");
    fs::create_dir_all(&damaged)?;
    let name = utc_name(now.utc_ms);
    let mut folder = damaged.join(&name);
    for number in 2..=u32::MAX {
        match fs::create_dir(&folder) {
            Err(error) if error.kind() == ErrorKind::AlreadyExists => {
                folder = damaged.join(format!("{name}-{number}"));
            }
            made => {
                made?;
                sync_folder(&damaged)?;
                return Ok(folder);
            }
        }
    }
    Err(ErrorKind::AlreadyExists.into())
}

/// The folder in which a file stands.
pub(super) fn folder_of(file: &Path) -> PathBuf {
    match file.parent() {
        Some(folder) if folder != Path::new("") => folder.to_owned(),
        Some(_) | None => PathBuf::from("."),
    }
}

/// The path of a file with something added to its name.
pub(super) fn beside(file: &Path, suffix: &str) -> PathBuf {
    let mut path = OsString::from(file);
    path.push(suffix);
    path.into()
}

/// Makes renames within a folder outlive a power cut.
pub(super) fn sync_folder(folder: &Path) -> io::Result<()> {
    // Elsewhere a folder cannot be opened as a file, and renames are durable by other means.
    if cfg!(unix) { File::open(folder)?.sync_all() } else { Ok(()) }
}

/// An error of the file system, with its file.
pub(super) fn io_error(path: &Path, source: io::Error) -> Error {
    if source.kind() == ErrorKind::StorageFull {
        Error::StorageFull
    } else {
        Error::Io { path: path.to_owned(), source }
    }
}

/// A time as a file name; the bare number for a time outside the calendar.
pub(super) fn utc_name(utc_ms: i64) -> String {
    DateTime::from_timestamp_millis(utc_ms)
        .map_or_else(|| utc_ms.to_string(), |time| time.format(UTC_NAME).to_string())
}

/// The inverse of [`utc_name`], for names of four-digit years.
pub(super) fn utc_of(name: &str) -> Option<i64> {
    let time = NaiveDateTime::parse_from_str(name, UTC_NAME).ok()?;
    Some(time.and_utc().timestamp_millis())
}
