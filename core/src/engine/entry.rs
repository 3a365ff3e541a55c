//! Entries of the log, before they are written.

use super::loaded::Loaded;
use crate::catalogue::Target;
use crate::clock::Stamp;
use crate::error::{Error, Result};
use crate::state::{Act, Fact, How, NewEntry, State};
use crate::vehicle::{Action, Deed, Settings};

impl Loaded {
    /// An entry that belongs to the run under way, if any.
    pub(super) fn entry(&self, act: Act, now: &Stamp) -> NewEntry {
        let run = self.state.run.as_ref().map(|run| run.id);
        NewEntry {
            at: now.clone(),
            run,
            act,
            facts: Vec::new(),
            reading: None,
            finding: None,
            figure: None,
            note: String::new(),
        }
    }

    /// A report of the wheels: `still` or `moving`.
    pub(super) fn wheels(&self, setting: &str, now: &Stamp) -> Result<NewEntry> {
        let engine = self.vehicle.of_kind("engine").next();
        let wheels = engine.and_then(|(_, engine)| self.vehicle.variable_of(engine, "wheels"));
        let none = || Error::NotFound { kind: "variable", id: "engine.wheels".to_owned() };
        let fact = self.fact(wheels.ok_or_else(none)?, vec![setting.to_owned()], How::Told);
        Ok(NewEntry { facts: vec![fact], ..self.entry(Act::Report, now) })
    }

    /// A move or look by its id.
    pub(super) fn doable(&self, step: &str) -> Result<&Action> {
        let (_, action) = self.vehicle.action(step)?;
        if action.deed == Deed::Wait {
            let detail = format!("{step}: only time does that");
            return Err(Error::Conflict { detail });
        }
        Ok(action)
    }

    /// An entry that makes sense only within a run.
    pub(super) fn in_run(&self, act: Act, now: &Stamp) -> Result<NewEntry> {
        let none = || Error::Conflict { detail: "no routine is under way".to_owned() };
        self.state.run.as_ref().ok_or_else(none)?;
        Ok(self.entry(act, now))
    }

    /// What choosing a variant says of this trip, if anything.
    pub(super) fn choice(&self, aim: &Target, now: &Stamp) -> Result<Option<NewEntry>> {
        let told = self.facts_said(aim)?.into_iter().map(|one| {
            let known = self.vehicle.variables.get(one.variable);
            let names = known.map_or_else(Vec::new, |known| known.names_of(one.settings));
            self.fact(one.variable, names, How::Told)
        });
        let facts: Vec<_> = told.collect();
        let entry = NewEntry { run: None, facts, ..self.entry(Act::Report, now) };
        Ok((!entry.facts.is_empty()).then_some(entry))
    }

    /// That the routine under way is taken up again: what its variant says still counts.
    pub(super) fn resumed(&self, now: &Stamp) -> Result<Vec<NewEntry>> {
        let mut said = vec![self.in_run(Act::Resume, now)?];
        if let Some(run) = &self.state.run {
            said.extend(self.choice(&self.aim_of_run(&run.target)?, now)?);
        }
        Ok(said)
    }

    pub(super) fn run_that_is(&self, paused: bool) -> Result<()> {
        match &self.state.run {
            Some(run) if run.paused == paused => Ok(()),
            Some(_) if paused => {
                Err(Error::Conflict { detail: "the routine goes on already".to_owned() })
            }
            Some(_) => {
                Err(Error::Conflict { detail: "the routine is laid aside already".to_owned() })
            }
            None => Err(Error::Conflict { detail: "no routine is under way".to_owned() }),
        }
    }

    pub(super) fn fact(&self, variable: usize, settings: Vec<String>, how: How) -> Fact {
        let known = self.vehicle.variables.get(variable);
        Fact { variable: known.map_or_else(String::new, |known| known.id.clone()), settings, how }
    }

    /// The variable of that id, if it is one that somebody can say: an age follows from the log.
    pub(super) fn reportable(&self, id: &str) -> Result<usize> {
        let found = self.vehicle.variable(id)?;
        let none = || Error::NotFound { kind: "variable", id: id.to_owned() };
        (!self.is_age(found)).then_some(found).ok_or_else(none)
    }

    pub(super) fn is_age(&self, number: usize) -> bool {
        self.vehicle.variables.get(number).is_some_and(|one| one.age_of.is_some())
    }

    /// What is believed once a move was made. What it only throws back was not seen to.
    pub(super) fn done(&self, action: &Action) -> Vec<Fact> {
        let said = action.effects.iter().filter(|effect| !self.is_age(effect.variable));
        let facts = said.map(|effect| {
            let how = if effect.spoilt { How::Settled } else { How::Done };
            let known = self.vehicle.variables.get(effect.variable);
            let names = known.map_or_else(Vec::new, |one| one.names_of(Settings::one(effect.to)));
            self.fact(effect.variable, names, how)
        });
        facts.collect()
    }

    /// What it throws back that something came to be otherwise than was believed: whatever every
    /// move that brings it about throws back.
    pub(super) fn thrown_back(&self, variable: usize, place: u8) -> Vec<Fact> {
        let to = Settings::one(place);
        if self.state.belief(variable).is_some_and(|known| known.settings.meets(to)) {
            return Vec::new();
        }
        let sets = |action: &&Action| {
            let mut effects = action.effects.iter().filter(|one| !one.spoilt);
            action.deed == Deed::Move
                && effects.any(|one| one.variable == variable && one.to == place)
        };
        let thrown = |action: &Action| -> Vec<Fact> {
            self.done(action).into_iter().filter(|fact| fact.how == How::Settled).collect()
        };
        let mut moves = self.vehicle.actions.iter().filter(sets).map(thrown);
        let first = moves.next().unwrap_or_default();
        moves
            .fold(first, |kept, other| kept.into_iter().filter(|one| other.contains(one)).collect())
    }

    /// What a look is expected to show, from what is believed before it.
    pub(super) fn expected(&self, action: &Action, state: &State) -> Option<String> {
        let effect = action.effects.first()?;
        let before = state.belief(effect.variable)?.settings;
        let variable = self.vehicle.variables.get(effect.variable)?;
        variable.names_of(action.outcome(effect, before)).into_iter().next()
    }
}
