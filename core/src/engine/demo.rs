//! Invented vehicles and trips that are built in.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::{DemoRow, Engine};
use crate::catalogue::{self, Catalogue};
use crate::clock::Stamp;
use crate::error::{Error, Result};
use crate::pack;
use crate::state::{Act, Fact, How, NewEntry};

const MS_PER_MIN: i64 = 60_000;

/// What is said to have happened before the demonstration begins.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Trip {
    #[allow(dead_code, reason = "names the format; there is one")]
    #[serde(rename = "stowfast_trip")]
    format: u32,
    #[allow(dead_code, reason = "for the reader of the file")]
    title: String,
    said: Vec<Said>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Said {
    /// How long before the demonstration begins. Unit: min.
    ago_min: i64,
    how: How,
    facts: BTreeMap<String, Vec<String>>,
}

impl Engine {
    /// The invented vehicles that are built in.
    ///
    /// # Errors
    /// [`Error::Database`].
    pub fn demos(&self) -> Result<Vec<DemoRow>> {
        let packs = catalogue::demo_files()
            .iter()
            .filter_map(|(path, content)| Some((path.strip_suffix("/pack.toml")?, content)));
        let rows = self.store.vehicles()?;
        packs
            .map(|(id, content)| {
                let pack = pack::read(id, content.as_bytes(), Catalogue::built_in()?)?;
                let (title, about) = (pack.title.into_inner(), pack.about);
                let here = rows.iter().any(|row| row.title == title);
                Ok(DemoRow { id: id.to_owned(), title, about, here })
            })
            .collect()
    }

    /// Adds an invented vehicle in the state its trip tells, makes it the current one and gives
    /// its id.
    ///
    /// # Errors
    /// [`Error::NotFound`] where there is no such demonstration, [`Error::Conflict`] where a vehicle
    /// of its title is here already.
    pub fn add_demo(&mut self, id: &str, now: &Stamp) -> Result<i64> {
        let file = |name: &str| {
            let path = format!("{id}/{name}");
            catalogue::demo_files().iter().find(|(known, _)| *known == path).map(|(_, text)| *text)
        };
        let none = || Error::NotFound { kind: "demonstration", id: id.to_owned() };
        let content = file("pack.toml").ok_or_else(none)?;
        let pack = pack::read(id, content.as_bytes(), Catalogue::built_in()?)?;
        self.no_other(pack.title.get_ref())?;
        let said = match file("morning.toml") {
            Some(trip) => entries(id, trip, now)?,
            None => Vec::new(),
        };
        self.adopt(pack.title.get_ref(), content, &said, now)
    }
}

fn entries(id: &str, trip: &str, now: &Stamp) -> Result<Vec<NewEntry>> {
    let trip: Trip =
        toml::from_str(trip).map_err(|error| catalogue::fault(id, &error.to_string()))?;
    let entry = |said: Said| {
        let ago_ms = said.ago_min.saturating_mul(MS_PER_MIN);
        let facts = said.facts.into_iter();
        NewEntry {
            at: now.earlier(ago_ms),
            run: None,
            act: Act::Report,
            facts: facts
                .map(|(variable, settings)| Fact { variable, settings, how: said.how })
                .collect(),
            reading: None,
            finding: None,
            figure: None,
            note: String::new(),
        }
    };
    Ok(trip.said.into_iter().map(entry).collect())
}
