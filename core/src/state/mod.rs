//! What is believed about each variable, since when and how it is known: the fold of the log.

mod departure;
mod entry;
mod fold;
mod local;
mod settle;
#[cfg(test)]
mod tests;

use std::collections::BTreeMap;

pub use entry::{Act, Entry, Fact, Figure, Finding, GaugeUnit, How, NewEntry, Reading};
pub(crate) use fold::voided as fold_voided;
pub use local::{CARRIER, COUNTRY};
pub use settle::Held;

use crate::clock::Stamp;
use crate::vehicle::{Action, AgeOf, Deed, Effect, Settings, VariableId, Vehicle};

/// What is believed of one variable.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Belief {
    /// The settings that it may have; never empty.
    pub settings: Settings,
    /// How and since when this is known; `None` while nobody has said anything.
    pub known: Option<Known>,
}

/// How and since when something is known.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Known {
    /// How.
    pub how: How,
    /// Since when.
    pub at: Stamp,
    /// The entry that said so.
    pub seq: i64,
    /// Since when it has been at this setting, as far as anybody said.
    pub since: Stamp,
    /// It came to this setting then, rather than being there already.
    pub began: bool,
    /// What was said, where something has settled since.
    pub said: Option<Settings>,
    /// What of the vehicle's settlings was the last to add to it, by its number.
    pub settled: Option<usize>,
}

/// A routine being carried out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Run {
    /// The sequence number of the entry that opened it.
    pub id: i64,
    /// The target.
    pub target: String,
    /// Laid aside.
    pub paused: bool,
    /// It was laid aside and taken up again since its last step.
    pub resumed: bool,
}

/// Everything that the log says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct State {
    /// What is believed of each variable of the vehicle.
    pub beliefs: Vec<Belief>,
    /// For how long each of the vehicle's settlings may have been under way.
    pub held: Vec<Held>,
    /// Variables that cannot be moved, and the entry that said so.
    pub stuck: BTreeMap<VariableId, i64>,
    /// Variables that were knowingly left as they are, and the entry that said so.
    pub left: BTreeMap<VariableId, i64>,
    /// The routine under way.
    pub run: Option<Run>,
    /// The entry that opened the departure under way.
    pub departure: Option<i64>,
    /// When that was.
    pub departed: Option<Stamp>,
    /// The country and the carrier that were told, each by its file, and when.
    pub local: BTreeMap<String, (String, Known)>,
    /// Where the last step was, or the wheel on arriving, and when: see [`State::zone_at`].
    pub stood: Option<(usize, Stamp)>,
    /// When the last entry was made.
    pub last: Option<Stamp>,
}

impl State {
    /// What is believed before anything is said.
    #[must_use]
    pub fn unsaid(vehicle: &Vehicle) -> Self {
        let belief = |settings| Belief { settings, known: None };
        Self {
            beliefs: vehicle.variables.iter().map(|variable| belief(variable.assume)).collect(),
            held: vec![Held::NEVER; vehicle.settlings.len()],
            stuck: BTreeMap::new(),
            left: BTreeMap::new(),
            run: None,
            departure: None,
            departed: None,
            local: BTreeMap::new(),
            stood: None,
            last: None,
        }
    }

    /// The settings that each variable may have at `now`, with what may have settled.
    #[must_use]
    pub fn settings(&self, vehicle: &Vehicle, now: &Stamp) -> Vec<Settings> {
        let settled = self.at(vehicle, now);
        let beliefs = settled.beliefs.iter().zip(&vehicle.variables);
        beliefs
            .enumerate()
            .map(|(number, (belief, variable))| match &variable.age_of {
                Some(age) => settled.age(age, settled.left_ms(vehicle, number, age, now)),
                None => belief.settings,
            })
            .collect()
    }

    /// Old, young, or either where it is not known when the setting came about. What must not end
    /// alone and may be over counts as over: somebody goes there, and sees.
    fn age(&self, age: &AgeOf, left_ms: Option<i64>) -> Settings {
        let (old, young) = (Settings::one(AgeOf::OLD), Settings::one(AgeOf::YOUNG));
        let Some(belief) = self.belief(age.variable) else { return young };
        if !belief.settings.meets(Settings::one(age.setting)) {
            return young;
        }
        let single = belief.settings.single().is_some();
        let began = belief.known.as_ref().is_some_and(|known| known.began);
        match left_ms {
            Some(0) if single => old,
            Some(_) if single && began => young,
            Some(_) | None if single && age.attended => old,
            _ => old.or(young),
        }
    }

    /// How long it is until an age is old, as far as is known: no longer once it is seen that what it
    /// is waited for is so. Unit: ms, ≥ 0.
    fn left_ms(
        &self,
        vehicle: &Vehicle,
        number: VariableId,
        age: &AgeOf,
        now: &Stamp,
    ) -> Option<i64> {
        if age.attended && self.is_seen_over(vehicle, number, age, now) {
            return Some(0);
        }
        Some(age.limit_ms.saturating_sub(self.age_ms(age, now)?).max(0))
    }

    /// Whether all that the end of what runs by itself brings about was said to be so since it runs.
    fn is_seen_over(
        &self,
        vehicle: &Vehicle,
        number: VariableId,
        age: &AgeOf,
        now: &Stamp,
    ) -> bool {
        let ran_ms = self.age_ms(age, now);
        let is_seen = |effect: &Effect| {
            self.belief(effect.variable).is_some_and(|belief| {
                let seen = belief.known.as_ref().and_then(|known| known.at.age_ms(now));
                belief.settings == Settings::one(effect.to)
                    && ran_ms.zip(seen).is_some_and(|(ran_ms, seen_ms)| seen_ms <= ran_ms)
            })
        };
        let waits = |action: &&Action| action.before.iter().any(|one| one.variable == number);
        let ends = vehicle.actions.iter().filter(|action| action.deed == Deed::Move).filter(waits);
        let mut brings = ends
            .flat_map(|action| &action.effects)
            .filter(|effect| !effect.spoilt && effect.variable != age.variable)
            .peekable();
        brings.peek().is_some() && brings.all(is_seen)
    }

    /// How long a variable has been at the setting of an age, as far as is known; at least so long,
    /// where it was only found there.
    fn age_ms(&self, age: &AgeOf, now: &Stamp) -> Option<i64> {
        let known = self.belief(age.variable)?.known.as_ref();
        known.filter(|_| !self.clock_changed(now))?.since.age_ms(now)
    }

    /// In how many seconds each age is old, of what is known to be at its setting and since when.
    /// Unit: s.
    #[must_use]
    pub fn ripens_s(&self, vehicle: &Vehicle, now: &Stamp) -> BTreeMap<VariableId, u32> {
        let ages = vehicle.variables.iter().enumerate();
        let left = ages.filter_map(|(number, variable)| {
            let age = variable.age_of.as_ref()?;
            let rests = self.belief(age.variable)?.settings == Settings::one(age.setting);
            let left_ms = self.left_ms(vehicle, number, age, now).filter(|_| rests)?;
            let whole = left_ms.saturating_add(999).div_euclid(1_000);
            Some((number, u32::try_from(whole).ok()?))
        });
        left.collect()
    }

    /// The belief about a variable.
    #[must_use]
    pub fn belief(&self, variable: VariableId) -> Option<&Belief> {
        self.beliefs.get(variable)
    }

    /// Whether the clock can no longer be compared with the log: the device was started anew, or
    /// the wall clock ran back past the last entry.
    #[must_use]
    pub fn clock_changed(&self, now: &Stamp) -> bool {
        self.last.as_ref().is_some_and(|last| last.age_ms(now).is_none())
    }
}
