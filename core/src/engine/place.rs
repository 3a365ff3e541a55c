//! Places: those that are built in, and arriving at one.

use super::Engine;
use super::page::{Changes, PlaceRow};
use crate::catalogue::{self, Catalogue};
use crate::clock::Stamp;
use crate::error::{Error, Result};
use crate::pack::place::{self, Place};
use crate::state::{Fact, How, NewEntry};

/// The built-in places by id, as text.
fn files() -> impl Iterator<Item = (&'static str, &'static str)> {
    let id = |path: &'static str| path.strip_prefix("places/")?.strip_suffix(".toml");
    catalogue::demo_files().iter().filter_map(move |(path, text)| Some((id(path)?, *text)))
}

impl Engine {
    /// The invented places that are built in.
    ///
    /// # Errors
    /// Only if a built-in file is wrong; the project's tests keep that from happening.
    pub fn places(&self) -> Result<Vec<PlaceRow>> {
        let row = |(id, text): (&str, &str)| {
            let Place { title, about, invented, .. } =
                place::read(id, text.as_bytes(), Catalogue::built_in()?)?;
            Ok(PlaceRow { id: id.to_owned(), title: title.into_inner(), about, invented })
        };
        files().map(row).collect()
    }

    /// Records that the vehicle stands at a built-in place, and what is told of it.
    ///
    /// # Errors
    /// [`Error::NotFound`] for an unknown place, [`Error::Conflict`] while no vehicle is chosen.
    pub fn arrive_at(&mut self, id: &str, now: &Stamp) -> Result<Changes> {
        let none = || Error::NotFound { kind: "place", id: id.to_owned() };
        let (_, text) = files().find(|(known, _)| *known == id).ok_or_else(none)?;
        self.arrive_at_file(text, id, now)
    }

    /// The same with the text of a place file. What this vehicle has no such thing for is left out.
    ///
    /// # Errors
    /// [`Error::Pack`] with file, line and what was expected, [`Error::Conflict`] while no vehicle
    /// is chosen. Nothing was changed then.
    pub fn arrive_at_file(&mut self, text: &str, file: &str, now: &Stamp) -> Result<Changes> {
        let place = place::read(file, text.as_bytes(), Catalogue::built_in()?)?;
        let loaded = self.loaded()?;
        let mut facts = Vec::new();
        for (name, settings) in place.facts {
            let (variable, settings) = (name.into_inner(), settings.into_inner());
            if loaded.reportable(&variable).is_ok() {
                facts.push(Fact { variable, settings, how: How::Told });
            }
        }
        let mut entry = loaded.wheels("still", now)?;
        entry.facts.extend(facts);
        let said = NewEntry { note: place.title.into_inner(), ..entry };
        self.finish(&[said], Vec::new(), now)
    }
}
