//! Taking back what was said: one entry, or all that one gesture wrote, in one transaction.

use super::Engine;
use super::loaded::Loaded;
use super::page::Changes;
use crate::clock::Stamp;
use crate::error::{Error, Result};
use crate::state::{Act, NewEntry};

impl Engine {
    /// Takes back some entries, as a list that was confirmed at once: they count no more. All of
    /// them are taken back, or none.
    ///
    /// # Errors
    /// [`Error::NotFound`] for an unknown entry, [`Error::Conflict`] for one that cannot be taken
    /// back or was already, or is named twice; [`Error::InvalidInput`] where none is named.
    pub fn take_back(&mut self, entries: &[i64], now: &Stamp) -> Result<Changes> {
        let loaded = self.at(now)?;
        if entries.is_empty() {
            let expected = "at least one entry".to_owned();
            return Err(Error::InvalidInput { field: "what to take back".to_owned(), expected });
        }
        // The last first, as somebody would who takes back one after the other.
        let mut newest_first = entries.to_vec();
        newest_first.sort_unstable_by(|one, other| other.cmp(one));
        let again = newest_first.windows(2).any(|pair| pair.first() == pair.last());
        if again {
            return Err(conflict("an entry is named twice"));
        }
        let void = |entry: &i64| loaded.void(*entry, now);
        let said = newest_first.iter().map(void).collect::<Result<Vec<_>>>()?;
        self.finish(&said, Vec::new(), now)
    }

    /// Takes back an entry: it counts no more.
    ///
    /// # Errors
    /// As [`Engine::take_back`].
    pub fn unmark(&mut self, entry: i64, now: &Stamp) -> Result<Changes> {
        self.take_back(&[entry], now)
    }
}

impl Loaded {
    fn void(&self, entry: i64, now: &Stamp) -> Result<NewEntry> {
        let found = self.entries.iter().find(|known| known.seq == entry);
        let found =
            found.ok_or_else(|| Error::NotFound { kind: "entry", id: entry.to_string() })?;
        if self.voided.contains(&entry) {
            return Err(conflict("that entry was already taken back"));
        }
        match found.said.act {
            Act::Report
            | Act::Tick { .. }
            | Act::Look { .. }
            | Act::Cannot { .. }
            | Act::LeftAnyway { .. }
            | Act::Note => Ok(self.entry(Act::Void { entry }, now)),
            Act::Void { .. } | Act::Open { .. } | Act::Pause | Act::Resume | Act::Close => {
                Err(conflict("only what was said of the vehicle can be taken back"))
            }
        }
    }
}

fn conflict(detail: &str) -> Error {
    Error::Conflict { detail: detail.to_owned() }
}
