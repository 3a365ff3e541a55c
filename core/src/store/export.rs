//! Everything that an owner added: out of a database, and back into one.

use std::collections::BTreeMap;

use rusqlite::Transaction;

use super::{Store, VehicleRow, entry, photo, setting, vehicle};
use crate::catalogue::{Target, back};
use crate::clock::Stamp;
use crate::error::{Error, Result};
use crate::photo::Photo;
use crate::state::{Act, Entry, NewEntry};

/// All that a database holds.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Everything {
    /// Small values of the app itself.
    pub settings: BTreeMap<String, String>,
    /// The vehicles, in the order in which they were added.
    pub vehicles: Vec<Kept>,
}

/// One vehicle with all that is kept of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Kept {
    /// What is carried for it; its id counts only in the database that it came from.
    pub row: VehicleRow,
    /// Its log.
    pub log: Vec<Entry>,
    /// Photos of its fittings, by the id of the fitting.
    pub photos: Vec<Photo>,
}

/// What became of one vehicle that was brought in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Brought {
    /// It was not here; these entries were written.
    Added(Vec<i64>),
    /// It was here and went on, or photos came to it; these entries were written.
    Updated(Vec<i64>),
    /// All of it was here already.
    Known,
    /// It went on differently here, and was left so.
    Left,
}

impl Store {
    /// All that this database holds, as of one moment.
    ///
    /// # Errors
    /// As for [`Store::entries_since`].
    pub fn everything(&self) -> Result<Everything> {
        let tx = self.connection.unchecked_transaction()?;
        let rows = vehicle::read_all(&tx)?.into_iter();
        let kept = |row: VehicleRow| {
            Ok(Kept { log: log(&tx, row.id)?, photos: photo::read(&tx, row.id)?, row })
        };
        let vehicles = rows.map(kept).collect::<Result<_>>()?;
        Ok(Everything { settings: setting::read_all(&tx)?, vehicles })
    }

    /// Adds everything to what is here, and tells of each vehicle what became of it: all of it, or
    /// none.
    ///
    /// A vehicle is known again by its title. Where its log here is the beginning of the one that
    /// comes in, the rest is added and the pack taken over. Entries keep their numbers as long as
    /// these are above all that are here, else they get higher ones and what names them follows. Of
    /// two photos of one fitting the one that was given later stays.
    /// What is chosen here already, vehicle or setting, stays so. `may_stay` tells of a vehicle
    /// that went on differently here whether it may be left as it is.
    ///
    /// # Errors
    /// [`Error::Conflict`] for a vehicle that went on differently here and may not be left; else as
    /// for [`Store::append`].
    pub fn bring_in(
        &mut self,
        all: &Everything,
        may_stay: impl Fn(&VehicleRow, &Kept) -> bool,
    ) -> Result<Vec<Brought>> {
        self.act(|tx| {
            setting::put_new(tx, &all.settings)?;
            let here = vehicle::read_all(tx)?;
            let mut numbers = Numbers::default();
            let mut places = Vec::new();
            for kept in &all.vehicles {
                let row = here.iter().find(|row| row.title == kept.row.title);
                let Some(row) = row else {
                    places.push(Place::New);
                    continue;
                };
                places.push(match numbers.meet(row, &log(tx, row.id)?, kept) {
                    Err(Error::Conflict { .. }) if may_stay(row, kept) => Place::Left,
                    met => Place::On { vehicle: row.id, known: met? },
                });
            }
            let coming: Vec<_> = all.vehicles.iter().zip(&places).collect();
            numbers
                .give(coming.iter().flat_map(|(kept, place)| place.rest(kept)), entry::newest(tx)?);
            let write =
                |(kept, place): &(&Kept, &Place)| place.write(tx, kept, &numbers, here.is_empty());
            coming.iter().map(write).collect()
        })
    }
}

fn log(tx: &Transaction<'_>, vehicle: i64) -> Result<Vec<Entry>> {
    entry::read_since(tx, vehicle, i64::MIN)
}

/// Where a vehicle that comes in goes.
enum Place {
    New,
    /// It is here as `vehicle`, and so many entries of its log are known.
    On {
        vehicle: i64,
        known: usize,
    },
    Left,
}

impl Place {
    /// The entries that are not here yet.
    fn rest<'a>(&self, kept: &'a Kept) -> &'a [Entry] {
        match self {
            Self::New => &kept.log,
            Self::On { known, .. } => kept.log.get(*known..).unwrap_or_default(),
            Self::Left => &[],
        }
    }

    fn write(
        &self,
        tx: &Transaction<'_>,
        kept: &Kept,
        numbers: &Numbers,
        may_choose: bool,
    ) -> Result<Brought> {
        let (row, rest) = (&kept.row, self.rest(kept));
        let id = match self {
            Self::New => {
                vehicle::add(tx, &row.title, &row.pack_toml, &Stamp::utc(row.added_utc_ms))?
            }
            Self::On { vehicle, .. } if rest.is_empty() => {
                let new = photo::bring(tx, *vehicle, &kept.photos)?;
                return Ok(if new { Brought::Updated(Vec::new()) } else { Brought::Known });
            }
            Self::On { vehicle, .. } => *vehicle,
            Self::Left => return Ok(Brought::Left),
        };
        let good = row.good_pack_toml.as_deref();
        vehicle::replace_pack(tx, id, &row.title, &row.pack_toml, good)?;
        if may_choose && row.current {
            vehicle::choose(tx, id)?;
        }
        photo::bring(tx, id, &kept.photos)?;
        let insert = |one: &Entry| {
            let seq = numbers.of(one.seq);
            entry::insert_as(tx, id, Some(seq), &numbers.said(&one.said))
        };
        let written = rest.iter().map(insert).collect::<Result<_>>()?;
        let new = matches!(self, Self::New);
        Ok(if new { Brought::Added(written) } else { Brought::Updated(written) })
    }
}

/// The numbers that entries have here, by those that they come in with.
#[derive(Default)]
struct Numbers(BTreeMap<i64, i64>);

impl Numbers {
    /// How many entries of a vehicle that comes in are known of the one of its title here.
    ///
    /// # Errors
    /// [`Error::Conflict`] where one is not the beginning of the other. As long as one has no entry,
    /// only its pack can tell that they are the same.
    fn meet(&mut self, row: &VehicleRow, here: &[Entry], kept: &Kept) -> Result<usize> {
        for (ours, theirs) in here.iter().zip(&kept.log) {
            self.0.insert(theirs.seq, ours.seq);
            if self.said(&theirs.said) != ours.said {
                let (title, seq) = (&row.title, ours.seq);
                return Err(Error::Conflict {
                    detail: format!("\"{title}\" went on differently here, from entry {seq} on"),
                });
            }
        }
        let later = kept.log.len() > here.len();
        let (before, after) = if later { (row, &kept.row) } else { (&kept.row, row) };
        let shared = !here.is_empty() && !kept.log.is_empty();
        let goes_on = kept.log.len() != here.len()
            && (shared || after.good_pack_toml.as_ref() == Some(&before.pack_toml));
        if before.pack_toml == after.pack_toml || goes_on {
            return Ok(here.len());
        }
        Err(Error::Conflict {
            detail: format!("another vehicle called \"{}\" is here already", row.title),
        })
    }

    /// Gives numbers to entries that are not here yet: their own, or higher ones in the same order.
    fn give<'a>(&mut self, coming: impl Iterator<Item = &'a Entry>, newest: i64) {
        let mut seqs: Vec<_> = coming.map(|one| one.seq).collect();
        seqs.sort_unstable();
        let mut last = newest;
        for seq in seqs {
            last = seq.max(last.saturating_add(1));
            self.0.insert(seq, last);
        }
    }

    fn of(&self, seq: i64) -> i64 {
        self.0.get(&seq).copied().unwrap_or(seq)
    }

    /// The same said with the numbers of here.
    fn said(&self, said: &NewEntry) -> NewEntry {
        let act = match &said.act {
            Act::Void { entry } => Act::Void { entry: self.of(*entry) },
            Act::Open { target } => match back(target) {
                Some(entry) => Act::Open { target: Target::back_to(self.of(entry)).key() },
                None => said.act.clone(),
            },
            Act::Report
            | Act::Tick { .. }
            | Act::Look { .. }
            | Act::Cannot { .. }
            | Act::LeftAnyway { .. }
            | Act::Pause
            | Act::Resume
            | Act::Close
            | Act::Note => said.act.clone(),
        };
        NewEntry { run: said.run.map(|run| self.of(run)), act, ..said.clone() }
    }
}
