//! The one door: commands in, changes and pages out.
//!
//! Every command is one call, one transaction, one [`Changes`]. Nothing here reads a clock: `now`
//! is an argument.

mod advice;
mod ahead;
mod aim;
mod alert;
mod attend;
mod card;
mod command;
mod confirm;
mod demo;
mod drive_card;
mod emergency;
mod entry;
mod export;
mod fault;
mod figure;
mod follow;
mod gas;
mod gauge;
mod ground;
mod kinds;
mod list;
mod loaded;
mod local;
mod log;
mod may;
mod now;
mod page;
mod parts;
mod photo;
mod place;
mod reckon;
mod remind;
mod reserve;
mod run;
mod settings;
mod share;
mod stands;
mod stay;
mod stop;
mod take_back;
#[cfg(test)]
mod tests;
mod vehicles;
mod way;
mod words;

use std::path::Path;

pub use confirm::{Line, Odd};
pub use emergency::emergency;
pub use export::EXPORT_BYTES_MAX;
pub use kinds::{KindRow, kinds};
pub use local::RuleRow;
pub use page::*;
pub use reckon::{Level, reckonings};

use crate::catalogue::{Catalogue, Target, Text, text};
use crate::clock::Stamp;
use crate::error::{Error, Result};
use crate::state::{Entry, NewEntry};
use crate::store::{Opened, Store};
use crate::units::Units;
use loaded::Loaded;

/// A database, and what is worked out from it for the current vehicle.
#[derive(Debug)]
pub struct Engine {
    store: Store,
    opened: Option<Opened>,
    language: String,
    units: Units,
    remind_h: i64,
    loaded: Option<Loaded>,
    /// The title of the current vehicle, where its pack no longer reads.
    unread: Option<String>,
}

impl Engine {
    /// Opens the database at `path`, or makes it. `language` is a tag such as `en`.
    ///
    /// # Errors
    /// As [`Store::open`]. A pack that no longer reads is no error: its row says so.
    pub fn open(path: &Path, language: &str, now: &Stamp) -> Result<Self> {
        let (store, opened) = Store::open(path, now)?;
        Self::with(store, Some(opened), language)
    }

    /// An engine on an empty database that is gone when dropped.
    ///
    /// # Errors
    /// As [`Store::in_memory`].
    pub fn in_memory(language: &str) -> Result<Self> {
        Self::with(Store::in_memory()?, None, language)
    }

    fn with(store: Store, opened: Option<Opened>, language: &str) -> Result<Self> {
        let language = language.to_owned();
        let units = Units::default();
        let (remind_h, loaded, unread) = (0, None, None);
        let mut engine = Self { store, opened, language, units, remind_h, loaded, unread };
        engine.load()?;
        Ok(engine)
    }

    /// What the owner must be told of how the database opened: set aside, restored, no backup, or
    /// the current vehicle's pack no longer reads.
    ///
    /// # Errors
    /// Only if the built-in words are wrong.
    pub fn notices(&self) -> Result<Vec<String>> {
        let text = self.text()?;
        let key = if self.loaded.is_some() { "older_pack" } else { "no_pack" };
        let unread = self
            .unread
            .iter()
            .map(|title| text.say(&format!("say.opened.{key}"), &[("what", title)]));
        let Some(opened) = &self.opened else { return Ok(unread.collect()) };
        let path = |path: &Path| path.display().to_string();
        let aside = opened.set_aside.as_ref().map(|kept| ("say.opened.set_aside", path(kept)));
        let back = opened.restored_from.as_ref().map(|from| ("say.opened.restored", path(from)));
        let empty =
            (aside.is_some() && back.is_none()).then(|| ("say.opened.empty", String::new()));
        let failed = opened.backup_failed.as_ref().map(|e| ("say.opened.no_backup", e.to_string()));
        let said = [aside, back, empty, failed].into_iter().flatten();
        let said = said.map(|(key, what)| text.say(key, &[("what", &what)]));
        Ok(said.chain(unread).collect())
    }

    fn loaded(&self) -> Result<&Loaded> {
        let none = || Error::Conflict {
            detail: "no vehicle is chosen, or its pack does not read".to_owned(),
        };
        self.loaded.as_ref().ok_or_else(none)
    }

    /// The current vehicle at `now`, with what may have settled since the last entry.
    fn at(&self, now: &Stamp) -> Result<Loaded> {
        Ok(self.loaded()?.at(now))
    }

    fn text(&self) -> Result<&'static Text> {
        text::of(Catalogue::built_in()?, &self.language)
    }

    /// Writes the entries of one command, in one transaction.
    fn write(&mut self, said: &[NewEntry]) -> Result<Vec<i64>> {
        let id = self.loaded()?.id;
        let seqs = self.store.append(id, said)?;
        if let Some(loaded) = &mut self.loaded {
            let numbered = seqs.iter().zip(said);
            let entries = numbered.map(|(seq, said)| Entry { seq: *seq, said: said.clone() });
            loaded.extend(&entries.collect::<Vec<_>>());
        }
        Ok(seqs)
    }

    /// What this vehicle can be got ready for.
    ///
    /// # Errors
    /// [`Error::Conflict`] while no vehicle is chosen.
    pub fn targets(&self) -> Result<Vec<TargetRow>> {
        let text = self.text()?;
        let loaded = self.loaded()?;
        let targets = loaded.catalogue.targets.iter();
        let row = |target: &Target| {
            Ok(TargetRow {
                id: target.id.clone(),
                title: text.say(&format!("target.{}.title", target.id), &[]),
                road: target.road,
                parts: loaded.parts(text, target)?,
            })
        };
        targets.filter(|target| loaded.lacking(target).is_none()).map(row).collect()
    }

    /// Every move and look of the vehicle, in walking order.
    ///
    /// # Errors
    /// [`Error::Conflict`] while no vehicle is chosen.
    pub fn steps(&self) -> Result<Vec<ActionRow>> {
        self.loaded()?.actions(&self.language)
    }

    /// Everything that can be reported, in walking order, and what is believed of it.
    ///
    /// # Errors
    /// [`Error::Conflict`] while no vehicle is chosen.
    pub fn things(&self, now: &Stamp) -> Result<Vec<ThingRow>> {
        self.at(now)?.things(&self.language, now)
    }

    /// What the vehicle is doing, and whether it is ready to drive or what blocks it.
    ///
    /// # Errors
    /// [`Error::Conflict`] while no vehicle is chosen.
    pub fn now_page(&self, now: &Stamp) -> Result<NowPage> {
        let loaded = self.at(now)?;
        self.reminded(&loaded, loaded.now_page(&self.language, now)?, now)
    }

    /// The routine under way, planned anew from the present state.
    ///
    /// # Errors
    /// [`Error::Conflict`] while no vehicle is chosen.
    pub fn routine(&self, now: &Stamp) -> Result<Option<RoutinePage>> {
        self.at(now)?.routine(&self.language, now)
    }

    /// The way to a target from where everything stands, without opening a routine. `target` names
    /// it, one of its variants (`target/variant`) or how things were (`back/entry`).
    ///
    /// # Errors
    /// [`Error::NotFound`] for an unknown target, [`Error::Conflict`] for one that this vehicle
    /// lacks something for, or while no vehicle is chosen.
    pub fn preview(&self, target: &str, now: &Stamp) -> Result<RoutinePage> {
        let loaded = self.at(now)?;
        let words = loaded.words(&self.language)?;
        let aim = loaded.aim(&words, target, now)?;
        // Where one was named, nobody asked for the others.
        let named = target.contains('/');
        let variants = if named { Vec::new() } else { loaded.variants(&words, &aim, now)? };
        Ok(RoutinePage { variants, ..loaded.page(&words, &aim, now)? })
    }

    /// The way to a target from where everything stands, shared out between two people.
    ///
    /// # Errors
    /// As [`Engine::preview`].
    pub fn shared(&self, target: &str, now: &Stamp) -> Result<SharedPage> {
        let loaded = self.at(now)?;
        let words = loaded.words(&self.language)?;
        loaded.shared(&words, &loaded.aim(&words, target, now)?, now)
    }

    /// What the first fridge that can choose draws on, and what to set.
    ///
    /// # Errors
    /// [`Error::Conflict`] while no vehicle is chosen.
    pub fn fridge(&self, now: &Stamp) -> Result<Option<FridgePage>> {
        self.at(now)?.fridge_page(&self.language, None, now)
    }

    /// The same, with by when to begin cooling it down for a departure. `leave_utc_ms`: ms since
    /// 1970-01-01 UTC.
    ///
    /// # Errors
    /// [`Error::InvalidInput`] for a departure that is over or too far ahead, as
    /// [`crate::fridge::begin_by`]; [`Error::Conflict`] while no vehicle is chosen.
    pub fn fridge_for(&self, leave_utc_ms: i64, now: &Stamp) -> Result<Option<FridgePage>> {
        self.at(now)?.fridge_page(&self.language, Some(leave_utc_ms), now)
    }

    /// Every gauge and what it last said.
    ///
    /// # Errors
    /// [`Error::Conflict`] while no vehicle is chosen.
    pub fn gauges(&self, now: &Stamp) -> Result<Vec<GaugeRow>> {
        self.at(now)?.gauges(&self.language, now)
    }

    /// Every tank, cassette and battery: what its gauge showed, what is used and how long it lasts,
    /// as far as its readings tell; see [`crate::reserve::lasting`].
    ///
    /// # Errors
    /// [`Error::Conflict`] while no vehicle is chosen.
    pub fn reserves(&self, now: &Stamp) -> Result<ReservePage> {
        self.at(now)?.reserves(&self.language, now)
    }

    /// The newest `limit` lines of the log, newest first.
    ///
    /// # Errors
    /// [`Error::InvalidInput`] unless `limit` is above 0; [`Error::Conflict`] while no vehicle is
    /// chosen.
    pub fn log(&self, limit: i32) -> Result<Vec<DoneRow>> {
        let most = usize::try_from(limit).ok().filter(|most| *most > 0);
        let most = most.ok_or_else(|| Error::InvalidInput {
            field: "number of lines".to_owned(),
            expected: "a number above 0".to_owned(),
        })?;
        let loaded = self.loaded()?;
        Ok(loaded.log(&loaded.words(&self.language)?, most))
    }
}
