//! The log in words.

use super::loaded::Loaded;
use super::page::{DoneRow, GaugeUnit};
use super::words::Words;
use crate::state::{Act, CARRIER, COUNTRY, Entry, Fact, How, Reading};
use crate::vehicle::{Literal, Settings};

/// Whether a fact follows from what a gauge showed, and says it otherwise.
fn by_number(reading: &Reading, fact: &Fact) -> bool {
    fact.how == How::Reading && reading.unit != GaugeUnit::Words
}

impl Loaded {
    /// The newest lines of the log, newest first.
    pub(super) fn log(&self, words: &Words, limit: usize) -> Vec<DoneRow> {
        self.entries.iter().rev().take(limit).map(|entry| self.log_row(words, entry)).collect()
    }

    pub(super) fn log_row(&self, words: &Words, entry: &Entry) -> DoneRow {
        let note = &entry.said.note;
        let said = self.said(words, entry);
        DoneRow {
            entry: entry.seq,
            text: if note.is_empty() { said } else { format!("{said} ({note})") },
            at_utc_ms: entry.said.at.utc_ms,
            voided: self.voided.contains(&entry.seq),
        }
    }

    fn said(&self, words: &Words, entry: &Entry) -> String {
        let step = |id: &str| {
            let action = self.vehicle.action(id);
            action.map_or_else(|_| id.to_owned(), |(_, action)| words.step(action))
        };
        match &entry.said.act {
            Act::Report if entry.said.finding.is_some() => {
                let found = entry.said.finding.iter().map(|one| self.finding_text(words, one));
                found.collect()
            }
            Act::Report if entry.said.figure.is_some() => {
                let told = entry.said.figure.iter().map(|one| Self::figure_said(words, one));
                told.collect()
            }
            Act::Report => {
                let read = entry.said.facts.iter().any(|fact| fact.how == How::Reading);
                self.facts(words, entry, if read { "log.reading" } else { "log.report" })
            }
            Act::Tick { step: id } => words.say("log.tick", &[("step", &step(id))]),
            Act::Look { .. } => self.facts(words, entry, "log.look"),
            Act::Void { entry: target } => {
                let what = self.entries.iter().find(|known| known.seq == *target);
                let what = what.map_or_else(String::new, |known| self.said(words, known));
                words.say("log.void", &[("what", &what)])
            }
            Act::Cannot { step: id } => words.say("log.cannot", &[("step", &step(id))]),
            Act::LeftAnyway { step: id } => words.say("log.left_anyway", &[("step", &step(id))]),
            Act::Open { target } => words.say("log.open", &[("what", &words.aim(target))]),
            Act::Pause => words.say("log.pause", &[]),
            Act::Resume => words.say("log.resume", &[]),
            Act::Close if entry.said.facts.is_empty() => words.say("log.close", &[]),
            Act::Close => self.facts(words, entry, "log.close_told"),
            Act::Note => match &entry.said.reading {
                Some(reading) => words.say("log.reading", &[("what", &self.shown(words, reading))]),
                None => words.say("log.note", &[]),
            },
        }
    }

    /// What a gauge showed, with its name.
    fn shown(&self, words: &Words, reading: &Reading) -> String {
        let fitting = self.vehicle.fittings.iter().find(|one| one.id == reading.gauge);
        let gauge = fitting.and_then(|fitting| fitting.gauge.as_ref());
        let title = gauge.map_or_else(|| reading.gauge.clone(), |one| words.label(one.variable));
        format!("{}: {}", Words::sentence(&title), words.shown(reading))
    }

    /// The facts of an entry, one after the other.
    fn facts(&self, words: &Words, entry: &Entry, key: &str) -> String {
        let facts = entry.said.facts.iter().map(|fact| {
            if let Some(said) = self.local_fact(words, fact) {
                return said;
            }
            let Some(literal) = self.literal(fact) else {
                let seen = fact.settings.join(&words.say("or", &[]));
                return words.say("log.gone", &[("title", &fact.variable), ("seen", &seen)]);
            };
            let said = Words::sentence(&words.literal(&literal));
            match &entry.said.reading {
                Some(reading) if by_number(reading, fact) => {
                    let seen = words.settings(literal.variable, literal.settings);
                    let shown = self.shown(words, reading);
                    words.say("log.so", &[("shown", &shown), ("seen", &seen)])
                }
                Some(_) | None => said,
            }
        });
        words.say(key, &[("what", &facts.collect::<Vec<_>>().join(" · "))])
    }

    /// Which country or carrier a fact tells, if it does.
    fn local_fact(&self, words: &Words, fact: &Fact) -> Option<String> {
        let key = match fact.variable.as_str() {
            COUNTRY => "country",
            CARRIER => "carrier",
            _ => return None,
        };
        let file = fact.settings.first()?;
        let has_rows = self.vehicle.local.contains_key(file);
        let title = words.text.say(&format!("local.title.{file}"), &[]);
        let what = if has_rows { title } else { file.to_uppercase() };
        Some(words.say(&format!("local.{key}"), &[("what", &what)]))
    }

    /// What a fact says, as far as it is of something that is fitted.
    fn literal(&self, fact: &Fact) -> Option<Literal> {
        let variable = self.vehicle.variable(&fact.variable).ok()?;
        let places =
            fact.settings.iter().filter_map(|one| self.vehicle.setting(variable, one).ok());
        let settings: Settings = places.collect();
        (!settings.is_empty()).then_some(Literal { variable, settings })
    }
}
