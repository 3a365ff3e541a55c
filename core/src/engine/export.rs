//! Everything that an owner added, in one file, and back from it.

mod base64;
mod check;
mod file;

pub use file::BYTES_MAX as EXPORT_BYTES_MAX;

use super::Engine;
use super::page::Changes;
use super::vehicles::read;
use crate::clock::Stamp;
use crate::error::{Error, Result};
use crate::store::{Brought, Kept};
use crate::vehicle::Vehicle;

impl Engine {
    /// Everything in this database, as the text of one file: the same bytes for the same state.
    ///
    /// # Errors
    /// [`Error::Conflict`] for a database whose file could not be read back: beyond what a file may
    /// hold, or two vehicles of one title. Else as [`crate::store::Store::everything`].
    pub fn export_text(&self) -> Result<String> {
        let file = file::File::from(self.store.everything()?);
        let unfit = |expected| Error::Conflict { detail: format!("expected {expected}") };
        check::everything(&file).map_err(unfit)?;
        let text = file.text()?;
        let most = format!("at most {EXPORT_BYTES_MAX} bytes in all");
        if text.len() > EXPORT_BYTES_MAX { Err(unfit(most)) } else { Ok(text) }
    }

    /// Adds what a file from [`Engine::export_text`] holds to what is here, all of it or none; the
    /// warnings tell of each vehicle what became of it. See [`crate::store::Store::bring_in`]. A
    /// vehicle whose pack does not read is kept as it is. One that is invented, and went on
    /// differently here, is left as it is here. Where it is not known at `now` how long ago
    /// something was said that came in, that is told too.
    ///
    /// # Errors
    /// [`Error::Pack`] with file, line and what was expected, also where and in which vehicle and
    /// entry. [`Error::Conflict`] for a vehicle that went on differently here. Nothing was changed
    /// then.
    pub fn import(&mut self, bytes: &[u8], name: &str, now: &Stamp) -> Result<Changes> {
        let unfit = |expected| Error::Pack { file: name.to_owned(), line: 0, expected };
        let file = file::File::read(bytes, name)?;
        let (all, packs) = check::everything(&file).map_err(unfit)?;
        let brought = self.store.bring_in(&all, |here, kept| {
            packs.get(&kept.row.title).is_some_and(invented)
                && invented(&read(&here.title, &here.pack_toml))
        })?;
        self.load()?;
        let mut changes = Changes { entries: Vec::new(), warnings: Vec::new() };
        let mut ageless = Vec::new();
        for (kept, brought) in all.vehicles.iter().zip(brought) {
            let title = &kept.row.title;
            changes.warnings.extend(self.became(kept, packs.get(title), &brought)?);
            if let Brought::Added(entries) | Brought::Updated(entries) = brought {
                let new = kept.log.iter().rev().take(entries.len());
                if new.map(|one| one.said.at.age_ms(now)).any(|age| age.is_none()) {
                    ageless.push(title.as_str());
                }
                changes.entries.extend(entries);
            }
        }
        if !ageless.is_empty() {
            let what = ageless.join("; ");
            changes.warnings.push(self.text()?.say("say.import.ageless", &[("what", &what)]));
        }
        Ok(changes)
    }

    /// What became of a vehicle, and that its pack does not read.
    fn became(&self, kept: &Kept, pack: Option<&Pack>, brought: &Brought) -> Result<Vec<String>> {
        let text = self.text()?;
        let title = &kept.row.title;
        let (key, count) = match brought {
            Brought::Added(entries) => ("added", entries.len()),
            Brought::Updated(entries) => ("updated", entries.len()),
            Brought::Known => ("known", 0),
            Brought::Left => ("left", 0),
        };
        let slots = [("what", title.as_str()), ("count", &count.to_string())];
        let mut told = vec![text.say(&format!("say.import.{key}"), &slots)];
        if let (Brought::Added(_) | Brought::Updated(_), Some(Err(why))) = (brought, pack) {
            let slots = [("what", title.as_str()), ("why", &why.to_string())];
            told.push(text.say("say.import.unread", &slots));
        }
        Ok(told)
    }
}

/// What the text of a pack makes, or why it does not read.
type Pack = Result<Vehicle>;

/// Whether it is there for demonstration, so that nobody loses anything.
fn invented(pack: &Pack) -> bool {
    pack.as_ref().is_ok_and(|vehicle| vehicle.invented)
}
