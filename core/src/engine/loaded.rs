//! One vehicle with its log folded: what every page is drawn from.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::{Arc, Mutex};

use super::card::Finder;
use super::follow::Followed;
use super::way::Way;
use super::words::Words;
use crate::catalogue::{Catalogue, Target, text};
use crate::clock::Stamp;
use crate::error::{Error, Result};
use crate::interlock::{self, Goal, Verdict};
use crate::routine::Problem;
use crate::state::{Act, Entry, State, fold_voided};
use crate::units::Units;
use crate::vehicle::{Settings, VariableId, Vehicle};

/// The target whose verdict is shown first: the road.
pub(super) const ROAD: &str = "ready_to_drive";

/// A vehicle of the database, ready to answer; cheap to copy.
#[derive(Debug, Clone)]
pub(super) struct Loaded {
    pub(super) id: i64,
    pub(super) catalogue: &'static Catalogue,
    pub(super) vehicle: Arc<Vehicle>,
    pub(super) entries: Arc<Vec<Entry>>,
    /// Entries that no longer count.
    pub(super) voided: Arc<BTreeSet<i64>>,
    pub(super) state: State,
    /// How quantities are written.
    pub(super) units: Units,
    /// How the routine under way goes on.
    pub(super) followed: Option<Followed>,
    /// How what the routine under way has moved, and is to put back, stood before that.
    pub(super) as_found: BTreeMap<VariableId, Settings>,
    /// The last way to each target.
    pub(super) ways: Arc<Mutex<BTreeMap<String, Arc<Way>>>>,
    /// What can be found by an owner's words, once somebody looked.
    pub(super) finder: Arc<Mutex<Option<Finder>>>,
}

impl Loaded {
    pub(super) fn new(
        id: i64,
        catalogue: &'static Catalogue,
        vehicle: Vehicle,
        entries: Vec<Entry>,
        units: Units,
    ) -> Self {
        let (voided, state) = (Arc::default(), State::fold(&vehicle, catalogue, &[]));
        let (vehicle, entries) = (Arc::new(vehicle), Arc::new(entries));
        let mut loaded = Self {
            id,
            catalogue,
            vehicle,
            entries,
            voided,
            state,
            units,
            followed: None,
            as_found: BTreeMap::new(),
            ways: Arc::default(),
            finder: Arc::default(),
        };
        loaded.fold();
        loaded
    }

    /// The same at `now`, with what may have settled since the last entry.
    pub(super) fn at(&self, now: &Stamp) -> Self {
        Self { state: self.state.at(&self.vehicle, now), ..self.clone() }
    }

    /// The log without what was taken back, in its order.
    pub(super) fn counted(&self) -> impl DoubleEndedIterator<Item = &Entry> {
        self.entries.iter().filter(|entry| !self.voided.contains(&entry.seq))
    }

    /// Takes what was just written to the log.
    pub(super) fn extend(&mut self, entries: &[Entry]) {
        let voids = entries.iter().any(|entry| matches!(entry.said.act, Act::Void { .. }));
        Arc::make_mut(&mut self.entries).extend(entries.iter().cloned());
        if voids {
            self.fold();
        } else {
            for entry in entries {
                self.take(entry);
            }
        }
    }

    fn take(&mut self, entry: &Entry) {
        self.note_found(entry);
        self.state.take(&self.vehicle, self.catalogue, entry);
        self.follow(entry);
    }

    /// Folds the log, and follows the routine under way from where it was opened.
    fn fold(&mut self) {
        self.voided = Arc::new(fold_voided(&self.entries));
        self.followed = None;
        self.as_found.clear();
        self.state = State::fold(&self.vehicle, self.catalogue, &[]);
        let (entries, voided) = (Arc::clone(&self.entries), Arc::clone(&self.voided));
        let counted = entries.iter().filter(|entry| !voided.contains(&entry.seq));
        let turns = |entry: &&Entry| matches!(entry.said.act, Act::Open { .. } | Act::Close);
        let last = counted.clone().rfind(turns);
        let opened = last.filter(|entry| entry.said.act != Act::Close).map(|entry| entry.seq);
        for entry in counted {
            if opened.is_some_and(|opened| entry.seq >= opened) {
                self.take(entry);
            } else {
                self.state.take(&self.vehicle, self.catalogue, entry);
            }
        }
    }

    pub(super) fn words(&self, language: &str) -> Result<Words<'_>> {
        let text = text::of(self.catalogue, language)?;
        Ok(Words { vehicle: &self.vehicle, text, units: self.units })
    }

    /// The kind that a target needs and this vehicle lacks, if any.
    pub(super) fn lacking<'t>(&self, target: &'t Target) -> Option<&'t str> {
        let fitted = |kind: &str| self.vehicle.of_kind(kind).next().is_some();
        target.needs.iter().map(String::as_str).find(|kind| !fitted(kind))
    }

    /// A target that this vehicle can be got ready for.
    ///
    /// # Errors
    /// [`Error::NotFound`] for an unknown target, [`Error::Conflict`] for one that this vehicle
    /// lacks something for.
    pub(super) fn target(&self, words: &Words, id: &str) -> Result<&'static Target> {
        let target = self.catalogue.target(id)?;
        let Some(kind) = self.lacking(target) else { return Ok(target) };
        let title = words.text.say(&format!("target.{}.title", target.id), &[]);
        let what = words.text.say(&format!("kind.{kind}.title"), &[]);
        let detail = words.say("refuse.needs", &[("target", &title), ("what", &what)]);
        Err(Error::Conflict { detail })
    }

    pub(super) fn goals(&self, target: &Target) -> Result<Vec<Goal>> {
        if let Some(entry) = target.back_to {
            return Ok(self.goals_back(entry));
        }
        let beliefs: Vec<_> = self.state.beliefs.iter().map(|belief| belief.settings).collect();
        interlock::goals(&self.vehicle, target, &beliefs)
    }

    /// Whether the departure under way no longer counts.
    pub(super) fn has_lapsed(&self, now: &Stamp) -> Result<bool> {
        let goals = self.goals(self.catalogue.target(ROAD)?)?;
        Ok(self.state.has_lapsed(&self.vehicle, &goals, now))
    }

    /// For each variable, whether it was done or looked at for this departure.
    pub(super) fn fresh(&self, now: &Stamp) -> Result<Vec<bool>> {
        let lapsed = self.has_lapsed(now)?;
        let variables = 0..self.vehicle.variables.len();
        Ok(variables
            .map(|variable| {
                self.state.is_absent(&self.vehicle, variable)
                    || !lapsed && self.state.is_fresh(&self.vehicle, variable, now)
            })
            .collect())
    }

    pub(super) fn verdict(&self, goals: &[Goal], now: &Stamp) -> Result<Verdict> {
        let fresh = self.fresh(now)?;
        let is_fresh = |variable: usize| fresh.get(variable) == Some(&true);
        Ok(interlock::verdict(
            &self.vehicle,
            goals,
            &self.state.settings(&self.vehicle, now),
            is_fresh,
        ))
    }

    /// The planner's question for a target, from where everything stands.
    pub(super) fn problem(&self, goals: Vec<Goal>, now: &Stamp) -> Result<Problem<'_>> {
        Ok(Problem {
            vehicle: &self.vehicle,
            beliefs: self.state.settings(&self.vehicle, now),
            fresh: self.fresh(now)?,
            stuck: self.state.stuck.keys().copied().collect::<BTreeSet<_>>(),
            ripens_s: self.state.ripens_s(&self.vehicle, now),
            zone: self.state.zone_at(&self.vehicle, now),
            goals,
        }
        .with_ways_out())
    }
}
