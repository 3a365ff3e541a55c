//! The vehicles of the database: adding one, correcting its pack, choosing between them.

use std::collections::BTreeSet;

use super::Engine;
use super::loaded::Loaded;
use super::page::{Changes, VehicleRow};
use super::words::Words;
use crate::catalogue::Catalogue;
use crate::clock::Stamp;
use crate::error::{Error, Result};
use crate::pack;
use crate::state::{Act, Entry, NewEntry, fold_voided};
use crate::store;
use crate::vehicle::{Literal, Settings, Vehicle};

impl Engine {
    /// Loads the current vehicle, from its pack or, where that no longer reads, from the last one
    /// that did.
    pub(super) fn load(&mut self) -> Result<()> {
        (self.loaded, self.unread) = (None, None);
        self.load_units()?;
        self.load_remind_h()?;
        let catalogue = Catalogue::built_in()?;
        for row in self.store.vehicles()?.into_iter().filter(|row| row.current) {
            let used = in_use(&row);
            if used.as_ref().is_none_or(|(_, pack)| *pack != row.pack_toml) {
                self.unread = Some(row.title.clone());
            }
            if let Some((vehicle, _)) = used {
                let entries = self.store.entries(row.id)?;
                self.loaded = Some(Loaded::new(row.id, catalogue, vehicle, entries, self.units));
            }
        }
        Ok(())
    }

    /// All vehicles of this database, in the order they were added.
    ///
    /// # Errors
    /// [`Error::Database`].
    pub fn vehicles(&self) -> Result<Vec<VehicleRow>> {
        let rows = self.store.vehicles()?.into_iter().map(|row| {
            let read = read(&row.title, &row.pack_toml);
            VehicleRow {
                id: row.id,
                title: row.title.clone(),
                invented: read.as_ref().is_ok_and(|vehicle| vehicle.invented),
                current: row.current,
                problem: read.err().map(|error| error.to_string()),
            }
        });
        Ok(rows.collect())
    }

    /// Adds a vehicle from the text of a pack file, makes it the current one and gives its id.
    ///
    /// # Errors
    /// [`Error::Pack`] with file, line and what was expected. [`Error::Conflict`] where a vehicle
    /// of that title is here already: see [`Engine::replace_pack`]. Nothing was changed then.
    pub fn add_pack(&mut self, pack: &str, file: &str, now: &Stamp) -> Result<i64> {
        let title = read(file, pack)?.title;
        self.no_other(&title)?;
        self.adopt(&title, pack, &[], now)
    }

    pub(super) fn adopt(
        &mut self,
        title: &str,
        pack: &str,
        said: &[NewEntry],
        now: &Stamp,
    ) -> Result<i64> {
        let id = self.store.adopt_vehicle(title, pack, said, now)?;
        self.load()?;
        Ok(id)
    }

    /// Gives a vehicle a corrected pack and keeps its log, where a note says so. What the log says
    /// of things that are no longer fitted is passed over from now on; the warnings name them.
    ///
    /// # Errors
    /// [`Error::Pack`] with file, line and what was expected. [`Error::NotFound`] for an unknown
    /// vehicle, [`Error::Conflict`] where another one has the pack's title. Nothing was changed
    /// then.
    pub fn replace_pack(
        &mut self,
        vehicle: i64,
        pack: &str,
        file: &str,
        now: &Stamp,
    ) -> Result<Changes> {
        let fitted = read(file, pack)?;
        let row = self.store.vehicles()?.into_iter().find(|row| row.id == vehicle);
        let unknown = || Error::NotFound { kind: "vehicle", id: vehicle.to_string() };
        let row = row.ok_or_else(unknown)?;
        if fitted.title != row.title {
            self.no_other(&fitted.title)?;
        }
        let text = self.text()?;
        let used = in_use(&row);
        let words = used.as_ref().map(|(vehicle, _)| Words { vehicle, text, units: self.units });
        let gone = gone(words, &fitted, &self.store.entries(vehicle)?);
        let note = text.say("say.log.replaced", &[("file", file)]);
        let (at, run, act, facts) = (now.clone(), None, Act::Note, Vec::new());
        let said =
            NewEntry { at, run, act, facts, reading: None, finding: None, figure: None, note };
        let good = match &used {
            Some((_, used)) if *used != pack => Some(used.as_str()),
            Some(_) | None => row.good_pack_toml.as_deref(),
        };
        let entries = self.store.replace_pack(vehicle, &fitted.title, pack, good, &[said])?;
        self.load()?;
        let passed_over = || text.say("say.warn.gone", &[("what", &gone.join("; "))]);
        let warnings = (!gone.is_empty()).then(passed_over).into_iter().collect();
        Ok(Changes { entries, warnings })
    }

    /// One vehicle, one title: else a corrected pack would make a second one.
    pub(super) fn no_other(&self, title: &str) -> Result<()> {
        match self.store.vehicles()?.into_iter().find(|row| row.title == title) {
            Some(store::VehicleRow { id, .. }) => {
                let detail =
                    format!("a vehicle called \"{title}\" is here already, as number {id}");
                Err(Error::Conflict { detail })
            }
            None => Ok(()),
        }
    }

    /// Makes a vehicle the one that every page is about.
    ///
    /// # Errors
    /// [`Error::NotFound`].
    pub fn choose_vehicle(&mut self, id: i64) -> Result<()> {
        self.store.choose_vehicle(id)?;
        self.load()
    }
}

/// Makes a vehicle of the text of a pack; `file` is the name shown in errors.
pub(super) fn read(file: &str, pack: &str) -> Result<Vehicle> {
    let catalogue = Catalogue::built_in()?;
    Vehicle::new(&pack::read(file, pack.as_bytes(), catalogue)?, catalogue)
}

/// What a vehicle's pack makes, or, where that no longer reads, the last one that did; and which.
fn in_use(row: &store::VehicleRow) -> Option<(Vehicle, String)> {
    let packs = [Some(&row.pack_toml), row.good_pack_toml.as_ref()];
    let mut packs = packs.into_iter().flatten();
    packs.find_map(|pack| Some((read(&row.title, pack).ok()?, pack.clone())))
}

/// What the log speaks of and `fitted` no longer has, in the words of the vehicle so far. What that
/// had no longer either was told before.
fn gone(so_far: Option<Words>, fitted: &Vehicle, entries: &[Entry]) -> Vec<String> {
    let voided = fold_voided(entries);
    let said = entries.iter().filter(|entry| !voided.contains(&entry.seq)).map(|one| &one.said);
    let mut gone = Vec::new();
    for said in said {
        let facts = said.facts.iter();
        let facts = facts.flat_map(|fact| fact.settings.iter().map(|one| (&fact.variable, one)));
        gone.extend(facts.filter_map(|(id, setting)| gone_fact(so_far, fitted, id, setting)));
        if let (Act::Cannot { step }, Some(words)) = (&said.act, so_far)
            && fitted.action(step).is_err()
        {
            gone.extend(words.vehicle.action(step).map(|(_, action)| words.step(action)));
        }
    }
    let mut told = BTreeSet::new();
    gone.retain(|one| told.insert(one.clone()));
    gone
}

fn gone_fact(so_far: Option<Words>, fitted: &Vehicle, id: &str, setting: &str) -> Option<String> {
    let literal = |vehicle: &Vehicle| {
        let variable = vehicle.variable(id).ok()?;
        let place = vehicle.setting(variable, setting).ok()?;
        Some(Literal { variable, settings: Settings::one(place) })
    };
    if literal(fitted).is_some() {
        return None;
    }
    let Some(words) = so_far else { return Some(id.to_owned()) };
    let known = literal(words.vehicle)?;
    let still = fitted.variable(id).is_ok();
    Some(if still { words.literal(&known) } else { words.label(known.variable) })
}
