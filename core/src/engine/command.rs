//! Commands: what the owner says has happened. Facts are never refused; what they break is said.

use super::page::{Changes, GaugeUnit};
use super::words::{Words, once, together};
use super::{Engine, gauge};
use crate::clock::Stamp;
use crate::error::{Error, Result};
use crate::reserve::whole;
use crate::state::{Act, How, NewEntry, Reading};
use crate::vehicle::{Clause, Deed, Settings};

impl Engine {
    /// Opens a routine. One that is under way is closed. The log keeps which variant it leads to,
    /// and what choosing it says.
    ///
    /// # Errors
    /// [`Error::NotFound`] for an unknown target, [`Error::Conflict`] for one that this vehicle
    /// lacks something for.
    pub fn open_run(&mut self, target: &str, now: &Stamp) -> Result<Changes> {
        let loaded = self.at(now)?;
        let words = loaded.words(&self.language)?;
        let aim = loaded.aim(&words, target, now)?;
        let mut said = Vec::new();
        let mut warnings = Vec::new();
        if let Some(run) = &loaded.state.run {
            warnings.push(words.closed(run));
            said.push(loaded.closed(&words, now)?);
        }
        let open = NewEntry { run: None, ..loaded.entry(Act::Open { target: aim.key() }, now) };
        said.push(open);
        said.extend(loaded.choice(&aim, now)?);
        self.finish(&said, warnings, now)
    }

    /// Records that a move cannot be made, in a routine or not; its variable stays as it is until
    /// that is cleared. What cannot be looked at is left as it is; it may still be moved.
    ///
    /// # Errors
    /// [`Error::NotFound`] for an unknown step, [`Error::Conflict`] for a look outside a routine.
    pub fn cannot(&mut self, step: &str, note: &str, now: &Stamp) -> Result<Changes> {
        let loaded = self.at(now)?;
        let action = loaded.doable(step)?;
        if action.deed == Deed::Look {
            return self.left_anyway(step, note, now);
        }
        let act = Act::Cannot { step: step.to_owned() };
        let entry = NewEntry { note: note.to_owned(), ..loaded.entry(act, now) };
        self.finish(&[entry], Vec::new(), now)
    }

    /// Records that a step was knowingly left undone. It changes no verdict.
    ///
    /// # Errors
    /// [`Error::NotFound`] for an unknown step, [`Error::Conflict`] outside a routine.
    pub fn left_anyway(&mut self, step: &str, note: &str, now: &Stamp) -> Result<Changes> {
        let loaded = self.at(now)?;
        loaded.doable(step)?;
        let act = Act::LeftAnyway { step: step.to_owned() };
        let entry = NewEntry { note: note.to_owned(), ..loaded.in_run(act, now)? };
        self.finish(&[entry], Vec::new(), now)
    }

    /// Records that what could not be moved can be moved again: takes the entry back.
    ///
    /// # Errors
    /// As [`Engine::unmark`].
    pub fn clear_stuck(&mut self, entry: i64, now: &Stamp) -> Result<Changes> {
        let state = &self.loaded()?.state;
        if state.stuck.values().chain(state.left.values()).any(|seq| *seq == entry) {
            return self.unmark(entry, now);
        }
        Err(Error::NotFound { kind: "stuck entry", id: entry.to_string() })
    }

    /// Writes something to remember into the log.
    ///
    /// # Errors
    /// [`Error::InvalidInput`] for an empty note.
    pub fn note(&mut self, note: &str, now: &Stamp) -> Result<Changes> {
        if note.trim().is_empty() {
            let expected = "something to remember".to_owned();
            return Err(Error::InvalidInput { field: "note".to_owned(), expected });
        }
        let entry = NewEntry { note: note.to_owned(), ..self.at(now)?.entry(Act::Note, now) };
        self.finish(&[entry], Vec::new(), now)
    }

    /// Lays the routine aside. What was done stays believed, but no longer counts as fresh.
    ///
    /// # Errors
    /// [`Error::Conflict`] where none is under way, or it is laid aside already.
    pub fn pause(&mut self, now: &Stamp) -> Result<Changes> {
        let loaded = self.at(now)?;
        loaded.run_that_is(false)?;
        let entry = loaded.in_run(Act::Pause, now)?;
        self.finish(&[entry], Vec::new(), now)
    }

    /// Takes the routine up again.
    ///
    /// # Errors
    /// [`Error::Conflict`] where none is laid aside.
    pub fn resume(&mut self, now: &Stamp) -> Result<Changes> {
        let loaded = self.at(now)?;
        loaded.run_that_is(true)?;
        let said = loaded.resumed(now)?;
        self.finish(&said, Vec::new(), now)
    }

    /// Ends the routine, finished or not.
    ///
    /// # Errors
    /// [`Error::Conflict`] where none is under way.
    pub fn close_run(&mut self, now: &Stamp) -> Result<Changes> {
        let loaded = self.at(now)?;
        let entry = loaded.closed(&loaded.words(&self.language)?, now)?;
        self.finish(&[entry], Vec::new(), now)
    }

    /// Records how something is, outside any routine.
    ///
    /// # Errors
    /// [`Error::NotFound`] for an unknown variable, [`Error::InvalidInput`] for a setting that it
    /// does not have.
    pub fn report(&mut self, variable: &str, setting: &str, now: &Stamp) -> Result<Changes> {
        self.told(variable, setting, How::Told, now)
    }

    /// Records that the vehicle has driven off. A routine that leads to the road has done its work
    /// and is closed.
    ///
    /// # Errors
    /// [`Error::Conflict`] while no vehicle is chosen.
    pub fn drive_off(&mut self, now: &Stamp) -> Result<Changes> {
        let loaded = self.at(now)?;
        let mut said = vec![loaded.wheels("moving", now)?];
        let mut warnings = Vec::new();
        if let Some(run) = &loaded.state.run
            && loaded.aim_of_run(&run.target)?.road
        {
            warnings.push(loaded.words(&self.language)?.closed(run));
            said.push(loaded.entry(Act::Close, now));
        }
        self.finish(&said, warnings, now)
    }

    /// Records that the vehicle stands again.
    ///
    /// # Errors
    /// [`Error::Conflict`] while no vehicle is chosen.
    pub fn arrive(&mut self, now: &Stamp) -> Result<Changes> {
        let said = self.at(now)?.wheels("still", now)?;
        self.finish(&[said], Vec::new(), now)
    }

    /// Records where the owner set the fridge's selector.
    ///
    /// # Errors
    /// [`Error::NotFound`] where no such fridge is fitted, [`Error::InvalidInput`] for a setting
    /// that it does not have.
    pub fn set_fridge(&mut self, selector: &str, now: &Stamp) -> Result<Changes> {
        let loaded = self.at(now)?;
        let fridge = loaded.vehicle.of_kind("fridge_three_way").next();
        let none = || Error::NotFound { kind: "fridge", id: "fridge_three_way".to_owned() };
        let variable = format!("{}.selector", fridge.ok_or_else(none)?.1.id);
        self.told(&variable, selector, How::Done, now)
    }

    fn told(&mut self, variable: &str, setting: &str, how: How, now: &Stamp) -> Result<Changes> {
        let loaded = self.at(now)?;
        let number = loaded.reportable(variable)?;
        let words = loaded.words(&self.language)?;
        let place = loaded.setting(&words, number, setting)?;
        let mut facts = vec![loaded.fact(number, vec![setting.to_owned()], how)];
        facts.extend(loaded.thrown_back(number, place));
        let entry = NewEntry { facts, ..loaded.entry(Act::Report, now) };
        self.finish(&[entry], Vec::new(), now)
    }

    /// Records what a gauge shows; `value` in its `unit`. A reading that counts gives every band
    /// that it touches; one that does not is noted and changes nothing.
    ///
    /// # Errors
    /// [`Error::NotFound`] for an unknown gauge, [`Error::InvalidInput`] for a value that it cannot
    /// show.
    pub fn enter_reading(
        &mut self,
        gauge: &str,
        unit: GaugeUnit,
        value: f64,
        now: &Stamp,
    ) -> Result<Changes> {
        let loaded = self.at(now)?;
        let words = loaded.words(&self.language)?;
        let fitting = loaded.vehicle.fittings.iter().find(|one| one.id == gauge);
        let none = || Error::NotFound { kind: "gauge", id: gauge.to_owned() };
        let fitting = fitting.ok_or_else(none)?;
        let variable = fitting.gauge.as_ref().ok_or_else(none)?.variable;
        let gauge::Read { settings, beside, said, trust } =
            loaded.read(&words, fitting, unit, value, now)?;
        let fact = |(variable, settings): (usize, Settings)| {
            let known = loaded.vehicle.variables.get(variable);
            let names = known.map_or_else(Vec::new, |known| known.names_of(settings));
            loaded.fact(variable, names, How::Reading)
        };
        let value_milli = whole("value", value, 1_000, 0..=Reading::MILLI_MAX)?;
        let reading = Some(Reading { gauge: gauge.to_owned(), unit, value_milli });
        let (entry, warnings) = if trust.against.is_empty() {
            let seen = format!("{} ({said})", words.settings(variable, settings));
            let facts = std::iter::once((variable, settings)).chain(beside).map(fact).collect();
            let entry = NewEntry { facts, reading, ..loaded.entry(Act::Report, now) };
            let told = words.say("warn.reading_told", &[("seen", &seen)]);
            let granted = trust.note(&words).map(|note| Words::sentence(&note));
            (entry, std::iter::once(told).chain(granted).collect())
        } else {
            let reason = trust.note(&words).unwrap_or_default();
            let warning = words.say("warn.reading_not_counted", &[("reason", &reason)]);
            let entry = loaded.entry(Act::Note, now);
            (NewEntry { reading, note: warning.clone(), ..entry }, vec![warning])
        };
        self.finish(&[entry], warnings, now)
    }

    /// Writes entries of a routine; a departure that has lapsed, or a routine that was laid aside,
    /// is taken up again first.
    pub(super) fn in_departure(
        &mut self,
        mut said: Vec<NewEntry>,
        mut warnings: Vec<String>,
        now: &Stamp,
    ) -> Result<Changes> {
        let loaded = self.at(now)?;
        let run = loaded.state.run.as_ref();
        let paused = run.is_some_and(|run| run.paused);
        let lapsed = run.is_some() && loaded.has_lapsed(now)?;
        if paused || lapsed {
            said.splice(0..0, loaded.resumed(now)?);
        }
        if lapsed {
            let words = loaded.words(&self.language)?;
            warnings.push(words.say("warn.reopened", &[]));
        }
        self.finish(&said, warnings, now)
    }

    /// Writes, and says which rules are broken now that were not before.
    pub(super) fn finish(
        &mut self,
        said: &[NewEntry],
        mut warnings: Vec<String>,
        now: &Stamp,
    ) -> Result<Changes> {
        let language = self.language.clone();
        let loaded = self.at(now)?;
        let words = loaded.words(&language)?;
        let before: Vec<_> = loaded.broken_now(now).map(|clause| words.clause(clause)).collect();
        let bother = loaded.bothers(&words, now);
        let entries = self.write(said)?;
        let loaded = self.at(now)?;
        let words = loaded.words(&language)?;
        let is_new = |clause: &&Clause| !before.contains(&words.clause(clause));
        let broken: Vec<_> = loaded.broken_now(now).filter(is_new).collect();
        warnings.extend(together(broken.iter().filter_map(|clause| words.danger(clause))));
        let reasons = once(broken.iter().map(|clause| words.clause(clause)));
        warnings.extend(reasons.iter().map(|one| words.say("warn.broken", &[("reason", one)])));
        let bothers = loaded.bothers(&words, now).into_iter().filter(|one| !bother.contains(one));
        warnings.extend(bothers.map(|one| words.say("warn.nuisance", &[("reason", &one)])));
        Ok(Changes { entries, warnings })
    }
}
