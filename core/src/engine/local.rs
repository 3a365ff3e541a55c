//! The country and the carrier, and what their dated rows forbid or allow.

use serde::Serialize;

use super::Engine;
use super::page::Changes;
use crate::catalogue::{Says, local};
use crate::clock::Stamp;
use crate::error::{Error, Result};
use crate::state::{Act, CARRIER, COUNTRY, Fact, How, NewEntry};

/// What the file of a carrier begins with.
const OF_CARRIER: &str = "carrier_";

/// One rule of a country or carrier.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RuleRow {
    /// Names the country or carrier.
    pub place: String,
    /// The country or carrier, in words.
    pub place_title: String,
    /// Of a carrier: its sort, as [`Engine::tell_carrier`] takes it.
    pub carrier: Option<String>,
    /// Names the rule.
    pub rule: String,
    /// The rule, in words.
    pub title: String,
    /// What it says now: ask, where the row is a year old.
    pub says: Says,
    /// The same in words.
    pub says_text: String,
    /// What to know about it.
    pub note: String,
    /// Where it comes from.
    pub source: String,
    /// The day on which it was so, as `2026-07-14`.
    pub date: String,
    /// It is of the country or carrier that was told.
    pub told: bool,
}

impl Engine {
    /// Records which country the vehicle is in, by its code of two letters (ISO 3166-1). A country
    /// without rows is taken too: everything about it is to be asked.
    ///
    /// # Errors
    /// [`Error::InvalidInput`] for anything but two letters.
    pub fn tell_country(&mut self, code: &str, now: &Stamp) -> Result<Changes> {
        let code = code.to_lowercase();
        if code.len() != 2 || !code.chars().all(|letter| letter.is_ascii_lowercase()) {
            let expected = "the two letters of a country, as FR".to_owned();
            return Err(Error::InvalidInput { field: "country".to_owned(), expected });
        }
        self.tell_local(COUNTRY, &code, now)
    }

    /// Records what carries the vehicle on this trip: a sort of carrier.
    ///
    /// # Errors
    /// [`Error::InvalidInput`] lists the sorts there are.
    pub fn tell_carrier(&mut self, sort: &str, now: &Stamp) -> Result<Changes> {
        let files = self.loaded()?.vehicle.local.keys();
        let known: Vec<_> = files.filter_map(|file| file.strip_prefix(OF_CARRIER)).collect();
        if !known.contains(&sort) {
            let expected = known.join(", ");
            return Err(Error::InvalidInput { field: "carrier".to_owned(), expected });
        }
        self.tell_local(CARRIER, &format!("{OF_CARRIER}{sort}"), now)
    }

    fn tell_local(&mut self, what: &str, file: &str, now: &Stamp) -> Result<Changes> {
        let (variable, settings) = (what.to_owned(), vec![file.to_owned()]);
        let facts = vec![Fact { variable, settings, how: How::Told }];
        let entry = NewEntry { facts, ..self.at(now)?.entry(Act::Report, now) };
        let mut changes = self.finish(&[entry], Vec::new(), now)?;
        let rows = self.rules(now)?.into_iter().filter(|row| row.place == file);
        let mut said: Vec<_> = rows.map(|row| row.line()).collect();
        if said.is_empty() {
            said.push(self.text()?.say("say.local.none", &[]));
        }
        changes.warnings.extend(said);
        Ok(changes)
    }

    /// Every rule of every country and carrier, as it counts at `now`; of those that were told
    /// first.
    ///
    /// # Errors
    /// [`Error::Conflict`] while no vehicle is chosen.
    pub fn rules(&self, now: &Stamp) -> Result<Vec<RuleRow>> {
        let (loaded, text) = (self.at(now)?, self.text()?);
        let told: Vec<_> = loaded.state.local.values().map(|(file, _)| file).collect();
        let row = |file: &String, one: &local::Row| {
            let says = one.says_at(now.utc_ms);
            let key = match (says, one.says) {
                (Says::Allowed, _) => "allowed",
                (Says::Forbidden, _) => "forbidden",
                (Says::Ask, Says::Ask) => "ask",
                (Says::Ask, Says::Allowed) => "old_allowed",
                (Says::Ask, Says::Forbidden) => "old_forbidden",
            };
            RuleRow {
                place: file.clone(),
                place_title: text.say(&format!("local.title.{file}"), &[]),
                carrier: file.strip_prefix(OF_CARRIER).map(str::to_owned),
                rule: one.rule.clone(),
                title: text.say(&format!("local.rule.{}", one.rule), &[]),
                says,
                says_text: text.say(&format!("say.local.{key}"), &[]),
                note: text.say(&format!("local.note.{file}.{}", one.rule), &[]),
                source: one.source.clone(),
                date: one.date.to_string(),
                told: told.contains(&file),
            }
        };
        let files = loaded.vehicle.local.iter();
        let mut rows: Vec<_> =
            files.flat_map(|(file, rows)| rows.iter().map(move |one| row(file, one))).collect();
        rows.sort_by_key(|row| !row.told);
        Ok(rows)
    }
}

impl RuleRow {
    /// "Gas cylinder open while driving: ask. … (source, date)".
    #[must_use]
    pub fn line(&self) -> String {
        let Self { title, says_text, note, source, date, .. } = self;
        format!("{title}: {says_text}. {note} ({source}, {date})")
    }
}
