//! Backups: whole copies that SQLite itself writes, in `backup/` beside the database.
//!
//! A copy is named `<database>.<number>.<utc>`, with `.v<version>` behind it if it was made
//! before an upgrade. The number tells the order, because a wall clock may be set back.

use std::fs::{self, File};
use std::io::ErrorKind;
use std::path::{Path, PathBuf};

use rusqlite::Connection;

use super::damage::{beside, folder_of, io_error, sync_folder, utc_name, utc_of};
use crate::clock::Stamp;
use crate::error::{Error, Result};

/// The least time between two daily copies. Unit: ms. Common practice, no source.
const BETWEEN_MS: i64 = 24 * 60 * 60 * 1_000;

/// How many daily copies are kept. Common practice, no source.
const KEPT: usize = 3;

/// Where the copies of one database stand.
#[derive(Debug)]
pub(super) struct Shelf {
    folder: PathBuf,
    /// The file name of the database.
    name: String,
}

/// One copy on the shelf.
#[derive(Debug)]
pub(super) struct Backup {
    number: u64,
    /// `None` where the name holds no time that can be read.
    utc_ms: Option<i64>,
    before_upgrade: bool,
    path: PathBuf,
}

impl Shelf {
    /// The shelf of the database at `db`.
    ///
    /// # Errors
    /// [`Error::InvalidInput`] if `db` does not name a file.
    pub(super) fn beside(db: &Path) -> Result<Self> {
        let name = db.file_name().ok_or_else(|| Error::InvalidInput {
            field: format!("path of the database, {}", db.display()),
            expected: "the name of a file".into(),
        })?;
        let name = name.to_string_lossy().into_owned();
        Ok(Self { folder: folder_of(db).join("backup"), name })
    }

    /// The copy that was made last.
    pub(super) fn newest(&self) -> Result<Option<Backup>> {
        Ok(self.copies()?.pop())
    }

    /// Copies the database if the last copy is a day old, or of an unknown age, and lets go of
    /// daily copies beyond the last [`KEPT`].
    pub(super) fn store_daily(&self, connection: &Connection, now: &Stamp) -> Result<()> {
        let newest = self.newest()?;
        let age_ms = newest
            .and_then(|copy| copy.utc_ms)
            .and_then(|utc_ms| Stamp::utc(utc_ms).age_ms(&Stamp::utc(now.utc_ms)));
        if age_ms.is_some_and(|age_ms| age_ms < BETWEEN_MS) {
            return Ok(());
        }
        self.store(connection, now, "")?;
        let mut daily = self.copies()?;
        daily.retain(|copy| !copy.before_upgrade);
        for old in daily.iter().rev().skip(KEPT) {
            fs::remove_file(&old.path).map_err(|error| io_error(&old.path, error))?;
        }
        Ok(())
    }

    /// Copies the database as it is before an upgrade; such a copy is kept for good.
    pub(super) fn store_before_upgrade(&self, connection: &Connection, now: &Stamp) -> Result<()> {
        let version: i64 = connection.pragma_query_value(None, "user_version", |row| row.get(0))?;
        self.store(connection, now, &format!(".v{version}"))
    }

    /// Puts the newest copy that `is_sound` accepts in the place of `db`, which must not exist,
    /// and tells which copy it was.
    pub(super) fn restore(
        &self,
        db: &Path,
        is_sound: impl Fn(&Path) -> bool,
    ) -> Result<Option<PathBuf>> {
        let part = beside(db, ".restoring");
        for copy in self.copies()?.into_iter().rev() {
            match fs::copy(&copy.path, &part) {
                Ok(_) if is_sound(&part) => {
                    settle(&part, db)?;
                    return Ok(Some(copy.path));
                }
                Err(error) if error.kind() == ErrorKind::StorageFull => {
                    return Err(Error::StorageFull);
                }
                Ok(_) | Err(_) => {}
            }
            // Under this name it is neither tried again nor let go of.
            fs::rename(&copy.path, beside(&copy.path, ".unsound"))
                .map_err(|error| io_error(&copy.path, error))?;
        }
        remove_if_there(&part)?;
        Ok(None)
    }

    /// Writes one copy, first under another name, so that what bears the name is whole.
    fn store(&self, connection: &Connection, now: &Stamp, suffix: &str) -> Result<()> {
        fs::create_dir_all(&self.folder).map_err(|error| io_error(&self.folder, error))?;
        let part = self.folder.join(format!("{}.part", self.name));
        remove_if_there(&part)?;
        let number = self.newest()?.map_or(0, |copy| copy.number).saturating_add(1);
        let utc = utc_name(now.utc_ms);
        let path = self.folder.join(format!("{}.{number:06}.{utc}{suffix}", self.name));
        connection.execute("VACUUM INTO ?1", [part.to_string_lossy()])?;
        settle(&part, &path)
    }

    /// All copies, oldest first.
    fn copies(&self) -> Result<Vec<Backup>> {
        if !self.folder.exists() {
            return Ok(Vec::new());
        }
        let failed = |error| io_error(&self.folder, error);
        let mut copies = Vec::new();
        for file in fs::read_dir(&self.folder).map_err(failed)? {
            copies.extend(self.copy_at(file.map_err(failed)?.path()));
        }
        copies.sort_by_key(|copy| copy.number);
        Ok(copies)
    }

    /// The copy that a file is by its name, if it is one.
    fn copy_at(&self, path: PathBuf) -> Option<Backup> {
        let rest = path.file_name()?.to_str()?.strip_prefix(&self.name)?.strip_prefix('.')?;
        let mut parts = rest.split('.');
        let number = parts.next()?.parse().ok()?;
        let utc_ms = utc_of(parts.next()?);
        let before_upgrade = match parts.next() {
            None => false,
            Some(version) => version.strip_prefix('v')?.parse::<i64>().is_ok(),
        };
        parts.next().is_none().then_some(Backup { number, utc_ms, before_upgrade, path })
    }
}

/// Removes an unfinished copy of ours.
fn remove_if_there(part: &Path) -> Result<()> {
    match fs::remove_file(part) {
        Err(error) if error.kind() != ErrorKind::NotFound => Err(io_error(part, error)),
        Ok(()) | Err(_) => Ok(()),
    }
}

/// Makes a finished file durable, then gives it its name.
fn settle(part: &Path, path: &Path) -> Result<()> {
    let durable = || {
        File::options().write(true).open(part)?.sync_all()?;
        fs::rename(part, path)?;
        sync_folder(&folder_of(path))
    };
    durable().map_err(|error| io_error(path, error))
}
