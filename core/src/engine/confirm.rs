//! Saying that steps were done: one or a whole list, in one transaction.

use super::Engine;
use super::loaded::Loaded;
use super::page::Changes;
use super::words::{Words, once};
use crate::clock::Stamp;
use crate::error::{Error, Result};
use crate::state::{Act, Entry, How, NewEntry, State};
use crate::vehicle::{Action, Deed};

/// One line of a list, as it was found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    /// The step, by its id.
    pub step: String,
    /// What it was instead of what the line says.
    pub odd: Option<Odd>,
}

/// How a line was otherwise than it says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Odd {
    /// The look showed this setting.
    Seen(String),
    /// It cannot be done or looked at; why, or empty.
    Cannot(String),
}

/// What is about to be written, and what to say of it.
struct Draft<'a> {
    loaded: &'a Loaded,
    words: &'a Words<'a>,
    /// What is believed by then.
    state: State,
    entries: Vec<NewEntry>,
    /// Why a step was too early.
    early: Vec<String>,
}

impl Engine {
    /// Records a list that one gesture confirmed: every line as it says, but for those marked odd.
    /// All of it is written, or nothing. Each line is judged with what is believed by then, and one
    /// that was not permitted, or not next, is taken and warned about.
    ///
    /// # Errors
    /// [`Error::NotFound`] for an unknown step, or something seen where nothing is looked at;
    /// [`Error::InvalidInput`] for an unknown setting, or a list without a line;
    /// [`Error::Conflict`] for a look outside a routine, where nothing says what it should show.
    pub fn confirm(&mut self, lines: &[Line], now: &Stamp) -> Result<Changes> {
        let loaded = &self.at(now)?;
        let words = loaded.words(&self.language)?;
        if lines.is_empty() {
            let expected = "at least one step".to_owned();
            return Err(Error::InvalidInput { field: "list to confirm".to_owned(), expected });
        }
        let state = loaded.state.clone();
        let (entries, early) = (Vec::new(), Vec::new());
        let mut draft = Draft { loaded, words: &words, state, entries, early };
        lines.iter().try_for_each(|line| draft.add(line, now))?;
        let say = |reason: String| (words.say("warn.early", &[("reason", &reason)]), reason);
        let early: Vec<_> = once(draft.early).into_iter().map(say).collect();
        let mut changes = self.in_departure(draft.entries, Vec::new(), now)?;
        // What is said to be broken now needs not be said to have been early.
        for (line, reason) in early {
            if !changes.warnings.iter().any(|said| said.contains(&reason)) {
                changes.warnings.push(line);
            }
        }
        Ok(changes)
    }

    /// Records that a step was done: in its turn or not, in a routine or not. Within a routine a
    /// look that is ticked showed what the routine said it would.
    ///
    /// # Errors
    /// As [`Engine::confirm`].
    pub fn tick(&mut self, step: &str, now: &Stamp) -> Result<Changes> {
        self.confirm(&[Line { step: step.to_owned(), odd: None }], now)
    }

    /// Records what a look showed, whatever it was, in a routine or not.
    ///
    /// # Errors
    /// As [`Engine::confirm`].
    pub fn look(&mut self, step: &str, choice: &str, now: &Stamp) -> Result<Changes> {
        let odd = Some(Odd::Seen(choice.to_owned()));
        self.confirm(&[Line { step: step.to_owned(), odd }], now)
    }
}

impl Draft<'_> {
    fn add(&mut self, line: &Line, now: &Stamp) -> Result<()> {
        let action = self.loaded.doable(&line.step)?;
        let step = line.step.clone();
        let entry = match (&line.odd, action.deed) {
            (Some(Odd::Cannot(note)), deed) => NewEntry {
                note: note.clone(),
                ..match deed {
                    Deed::Look => self.loaded.in_run(Act::LeftAnyway { step }, now)?,
                    Deed::Move | Deed::Wait => self.loaded.entry(Act::Cannot { step }, now),
                }
            },
            (Some(Odd::Seen(setting)), Deed::Look) => self.seen(action, setting, now)?,
            (Some(Odd::Seen(_)), _) => return Err(Error::NotFound { kind: "look", id: step }),
            (None, Deed::Look) => {
                self.loaded.in_run(Act::Look { step }, now)?;
                let expected = self.loaded.expected(action, &self.state).unwrap_or_default();
                self.seen(action, &expected, now)?
            }
            (None, _) => {
                let beliefs = self.state.settings(&self.loaded.vehicle, now);
                self.early.extend(self.loaded.objections(self.words, action, &beliefs));
                let facts = self.loaded.done(action);
                NewEntry { facts, ..self.loaded.entry(Act::Tick { step }, now) }
            }
        };
        let said = Entry { seq: i64::MAX, said: entry.clone() };
        self.state.take(&self.loaded.vehicle, self.loaded.catalogue, &said);
        self.entries.push(entry);
        Ok(())
    }

    fn seen(&self, action: &Action, setting: &str, now: &Stamp) -> Result<NewEntry> {
        let variable = action.effects.first().map_or(usize::MAX, |effect| effect.variable);
        self.loaded.setting(self.words, variable, setting)?;
        let mut facts = self.loaded.done(action);
        if let Some(seen) = facts.first_mut() {
            *seen = self.loaded.fact(variable, vec![setting.to_owned()], How::Looked);
        }
        let act = Act::Look { step: action.id.clone() };
        Ok(NewEntry { facts, ..self.loaded.entry(act, now) })
    }
}
