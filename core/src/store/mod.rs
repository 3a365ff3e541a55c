//! What must outlive the process: vehicles, their logs, and small settings, in one SQLite file.
//!
//! One user action is one call is one transaction: it is on the disk when the call returns, or
//! nothing of it is. The state of a vehicle is not stored; it is the fold of its log.

mod backup;
mod damage;
mod entry;
mod export;
mod fact;
mod figure;
mod finding;
mod open;
mod photo;
mod reading;
mod schema;
mod setting;
#[cfg(test)]
mod tests;
mod vehicle;

use std::path::{Path, PathBuf};

use rusqlite::{Connection, Transaction, TransactionBehavior};

use crate::clock::Stamp;
use crate::error::{Error, Result};
use crate::state::{Entry, NewEntry};

pub(crate) use entry::{Columns, act_of};
pub use export::{Brought, Everything, Kept};
pub use photo::PhotoHead;
pub use vehicle::VehicleRow;

/// What opening a database came upon. The database in use is sound whatever stands here.
#[derive(Debug)]
pub struct Opened {
    /// There was nothing, and an empty database was made.
    pub created: bool,
    /// The folder that now holds the damaged files, whole and unchanged.
    pub set_aside: Option<PathBuf>,
    /// The backup that the database was restored from; what was said later than that backup is
    /// missing from the log.
    pub restored_from: Option<PathBuf>,
    /// Why the backup that was due could not be made.
    pub backup_failed: Option<Error>,
}

/// The database.
#[derive(Debug)]
pub struct Store {
    connection: Connection,
}

impl Store {
    /// Opens the database at `path`, making, upgrading or restoring it where needed.
    ///
    /// A damaged database goes, with its `-wal` and `-shm`, into `damaged/<utc>/` beside it, and
    /// the last sound backup takes its place, or an empty database where there is none. So does
    /// the last backup of a database that has vanished. Backups stand in `backup/`: one at most
    /// per 24 hours, the last three kept, and one before each upgrade, which is kept for good.
    ///
    /// # Errors
    /// - [`Error::NewerDatabase`]: a newer Stowfast wrote it; the file is untouched.
    /// - [`Error::InvalidInput`]: another program's database, which is untouched, or a path that
    ///   is not text.
    /// - [`Error::StorageDamaged`]: it is damaged and could not be moved, or the database put in
    ///   its place is damaged too.
    /// - [`Error::StorageFull`], [`Error::Io`] and [`Error::Database`]: no room, or no access.
    /// - [`Error::Internal`]: SQLite does not take a setting that durability needs.
    pub fn open(path: &Path, now: &Stamp) -> Result<(Self, Opened)> {
        let (connection, opened) = open::open(path, now, schema::MIGRATIONS)?;
        Ok((Self { connection }, opened))
    }

    /// An empty database that is gone when dropped.
    ///
    /// # Errors
    /// [`Error::Database`] or [`Error::Internal`] where SQLite does not work at all.
    pub fn in_memory() -> Result<Self> {
        Ok(Self { connection: open::in_memory(schema::MIGRATIONS)? })
    }

    /// Adds a vehicle and gives its id. The first vehicle becomes the current one.
    ///
    /// # Errors
    /// [`Error::InvalidInput`] for an empty title; else as for [`Store::append`].
    pub fn add_vehicle(&mut self, title: &str, pack_toml: &str, now: &Stamp) -> Result<i64> {
        self.act(|tx| vehicle::add(tx, title, pack_toml, now))
    }

    /// Adds a vehicle with what is already known of it, makes it the current one and gives its id:
    /// all of it, or none.
    ///
    /// # Errors
    /// As for [`Store::add_vehicle`] and [`Store::append`].
    pub fn adopt_vehicle(
        &mut self,
        title: &str,
        pack_toml: &str,
        said: &[NewEntry],
        now: &Stamp,
    ) -> Result<i64> {
        self.act(|tx| {
            let id = vehicle::add(tx, title, pack_toml, now)?;
            vehicle::choose(tx, id)?;
            said.iter().try_for_each(|said| entry::insert(tx, id, said).map(|_| ()))?;
            Ok(id)
        })
    }

    /// Gives a vehicle a title, a pack and the one to fall back on, and adds what is said of that
    /// to its log; gives the sequence numbers. All of it, or none.
    ///
    /// # Errors
    /// [`Error::NotFound`] for an unknown vehicle, [`Error::InvalidInput`] for an empty title;
    /// else as for [`Store::append`].
    pub fn replace_pack(
        &mut self,
        vehicle: i64,
        title: &str,
        pack_toml: &str,
        good_pack_toml: Option<&str>,
        said: &[NewEntry],
    ) -> Result<Vec<i64>> {
        self.act(|tx| {
            vehicle::replace_pack(tx, vehicle, title, pack_toml, good_pack_toml)?;
            said.iter().map(|said| entry::insert(tx, vehicle, said)).collect()
        })
    }

    /// All vehicles, in the order in which they were added.
    ///
    /// # Errors
    /// [`Error::Database`] where the file cannot be read.
    pub fn vehicles(&self) -> Result<Vec<VehicleRow>> {
        vehicle::read_all(&self.connection)
    }

    /// Makes a vehicle the current one.
    ///
    /// # Errors
    /// [`Error::NotFound`] for an unknown vehicle; else as for [`Store::append`].
    pub fn choose_vehicle(&mut self, vehicle: i64) -> Result<()> {
        self.act(|tx| vehicle::choose(tx, vehicle))
    }

    /// Adds the entries of one user action to a vehicle's log and gives their sequence numbers,
    /// in the same order: all of them, or none.
    ///
    /// # Errors
    /// - [`Error::NotFound`]: no such vehicle, or this vehicle's log has no such run or voided
    ///   entry.
    /// - [`Error::InvalidInput`]: a fact without settings, or a setting that is empty or holds a
    ///   comma.
    /// - [`Error::StorageFull`]: no room.
    /// - [`Error::Database`]: SQLite refused, as for an empty variable or step.
    pub fn append(&mut self, vehicle: i64, entries: &[NewEntry]) -> Result<Vec<i64>> {
        self.act(|tx| {
            vehicle::require(tx, vehicle)?;
            entries.iter().map(|said| entry::insert(tx, vehicle, said)).collect()
        })
    }

    /// A vehicle's whole log, by sequence number.
    ///
    /// # Errors
    /// As for [`Store::entries_since`].
    pub fn entries(&self, vehicle: i64) -> Result<Vec<Entry>> {
        self.entries_since(vehicle, i64::MIN)
    }

    /// The entries of a vehicle's log after sequence number `seq`, by sequence number.
    ///
    /// # Errors
    /// - [`Error::NotFound`]: no such vehicle.
    /// - [`Error::Internal`]: an entry holds a code that this program does not know.
    /// - [`Error::Database`]: the file cannot be read.
    pub fn entries_since(&self, vehicle: i64, seq: i64) -> Result<Vec<Entry>> {
        // One transaction, so that entries and facts are of one moment.
        let tx = self.connection.unchecked_transaction()?;
        vehicle::require(&tx, vehicle)?;
        entry::read_since(&tx, vehicle, seq)
    }

    /// The value last put under `key`.
    ///
    /// # Errors
    /// [`Error::Database`] where the file cannot be read.
    pub fn get(&self, key: &str) -> Result<Option<String>> {
        setting::get(&self.connection, key)
    }

    /// Puts a value under `key`, in place of the one before.
    ///
    /// # Errors
    /// [`Error::StorageFull`], or [`Error::Database`] where SQLite refuses, as for an empty key.
    pub fn put(&mut self, key: &str, value: &str) -> Result<()> {
        self.act(|tx| setting::put(tx, key, value))
    }

    /// Runs one user action: all of it, on the disk, or none of it.
    fn act<T>(&mut self, action: impl FnOnce(&Transaction<'_>) -> Result<T>) -> Result<T> {
        let tx = self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        let done = action(&tx)?;
        tx.commit()?;
        Ok(done)
    }
}
