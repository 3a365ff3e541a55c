//! Whole questions to the planner, drawn at random: vehicle, beliefs, what is fresh or stuck,
//! where the person stands, and what is asked.

use std::borrow::Cow;
use std::collections::BTreeSet;
use std::fmt;

use stowfast_core::Result;
use stowfast_core::catalogue::{Catalogue, Severity};
use stowfast_core::interlock::{Goal, GoalOf, goals};
use stowfast_core::routine::Problem;
use stowfast_core::vehicle::{AgeOf, Literal, Settings, Vehicle};
use stowfast_core::{Error, pack};

use crate::choices::Choices;
use crate::kinds;
use crate::packs::{self, Size};

/// Where the kinds of a case come from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kinds {
    /// The catalogue that is built in.
    BuiltIn,
    /// Made up for the case.
    MadeUp,
    /// Made up for the case, with rules and conditions that ask for ages.
    Timed,
    /// Made-up ones in which things run by themselves and must not end alone.
    Attended,
}

/// A question to the planner that owns everything it is about.
#[derive(Clone)]
pub struct Case {
    /// The catalogue.
    pub catalogue: Cow<'static, Catalogue>,
    /// The files of a made-up catalogue.
    pub kinds: String,
    /// The pack file.
    pub pack: String,
    /// The vehicle read from it.
    pub vehicle: Vehicle,
    /// What is believed.
    pub beliefs: Vec<Settings>,
    /// What is fresh.
    pub fresh: Vec<bool>,
    /// What is stuck.
    pub stuck: BTreeSet<usize>,
    /// Where the person stands.
    pub zone: usize,
    /// What is asked.
    pub goals: Vec<Goal>,
}

impl Case {
    /// Draws a case.
    ///
    /// # Errors
    /// Where the reader refuses what was drawn.
    pub fn drawn(list: &[u16], kinds: Kinds, size: Size) -> Result<Self> {
        let choices = &mut Choices::new(list);
        let (catalogue, kinds) = match kinds {
            Kinds::BuiltIn => (Cow::Borrowed(Catalogue::built_in()?), String::new()),
            Kinds::MadeUp => {
                let (catalogue, text) = kinds::catalogue(choices)?;
                (Cow::Owned(catalogue), text)
            }
            Kinds::Attended => {
                let (catalogue, text) = kinds::attended(choices)?;
                (Cow::Owned(catalogue), text)
            }
            Kinds::Timed => {
                let (catalogue, text) = kinds::timed(choices)?;
                (Cow::Owned(catalogue), text)
            }
        };
        let pack = packs::text(choices, &catalogue, size);
        let vehicle = vehicle(&pack, &catalogue)?;
        let goals = asked(choices, &vehicle, &catalogue)?;
        if wants_undone(&vehicle, &goals) {
            return Err(Error::Internal("something is wanted undone".to_owned()));
        }
        let count = vehicle.variables.len();
        let mut beliefs: Vec<_> =
            (0..count).map(|variable| belief(choices, &vehicle, variable)).collect();
        make_ages_fit(&vehicle, &mut beliefs);
        let fresh = (0..count).map(|_| choices.once_in(2)).collect();
        let stuck = (0..count).filter(|_| choices.once_in(16)).collect();
        let zone = choices.below(vehicle.zones.len());
        Ok(Self { catalogue, kinds, pack, vehicle, beliefs, fresh, stuck, zone, goals })
    }

    /// The question.
    #[must_use]
    pub fn problem(&self) -> Problem<'_> {
        Problem {
            vehicle: &self.vehicle,
            beliefs: self.beliefs.clone(),
            fresh: self.fresh.clone(),
            stuck: self.stuck.clone(),
            ripens_s: std::collections::BTreeMap::new(),
            zone: self.zone,
            goals: self.goals.clone(),
        }
    }

    /// The names of some steps.
    #[must_use]
    pub fn names(&self, steps: &[usize]) -> Vec<&str> {
        let actions = steps.iter().filter_map(|number| self.vehicle.actions.get(*number));
        actions.map(|action| action.id.as_str()).collect()
    }
}

/// Reads a pack and makes its vehicle.
///
/// # Errors
/// Where the pack is wrong.
pub fn vehicle(pack: &str, catalogue: &Catalogue) -> Result<Vehicle> {
    Vehicle::new(&pack::read("made up", pack.as_bytes(), catalogue)?, catalogue)
}

/// Whether anything asks for a setting that actions throw back to. Such a setting says that
/// something is still to do, and the catalogue's check lets nothing want that.
fn wants_undone(vehicle: &Vehicle, goals: &[Goal]) -> bool {
    let thrown = vehicle.actions.iter().flat_map(|action| &action.effects).filter(|one| one.spoilt);
    let undone: BTreeSet<(usize, u8)> = thrown.map(|one| (one.variable, one.to)).collect();
    let is_undone =
        |one: &Literal| one.settings.places().any(|place| undone.contains(&(one.variable, place)));
    let is_thrown = |variable: usize| undone.iter().any(|(thrown, _)| *thrown == variable);
    let kept = |variable: usize| {
        is_thrown(variable) && !vehicle.variables.get(variable).is_some_and(|one| one.dont_care)
    };
    goals.iter().flat_map(|goal| &goal.any_of).any(is_undone)
        || vehicle.actions.iter().flat_map(|action| &action.before).any(is_undone)
        || (0..vehicle.variables.len()).any(kept)
        || vehicle
            .clauses
            .iter()
            .flat_map(|clause| &clause.literals)
            .any(|one| is_thrown(one.variable) && !is_undone(one))
}

/// Random settings of a variable, none of them left out for good: mostly one, at times all.
pub fn belief(choices: &mut Choices, vehicle: &Vehicle, variable: usize) -> Settings {
    let Some(known) = vehicle.variables.get(variable) else { return Settings::NONE };
    if known.name == "wheels" && !choices.once_in(6) {
        return known.assume;
    }
    match choices.below(6) {
        5 => known.all,
        4 => some_of(choices, known.all),
        _ => one_of(choices, known.all),
    }
}

/// What is not at the setting of an age is young, and what only may be is not known to be old.
pub fn make_ages_fit(vehicle: &Vehicle, beliefs: &mut [Settings]) {
    for (number, variable) in vehicle.variables.iter().enumerate() {
        let Some(age) = variable.age_of else { continue };
        let known = beliefs.get(age.variable).copied().unwrap_or_default();
        let (at, old) = (Settings::one(age.setting), Settings::one(AgeOf::OLD));
        let Some(belief) = beliefs.get_mut(number) else { continue };
        if !known.meets(at) {
            *belief = Settings::one(AgeOf::YOUNG);
        } else if !known.is_within(at) && *belief == old {
            *belief = variable.all;
        }
    }
}

fn one_of(choices: &mut Choices, all: Settings) -> Settings {
    let places: Vec<u8> = all.places().collect();
    choices.one_of(&places).map_or(all, |place| Settings::one(*place))
}

fn some_of(choices: &mut Choices, all: Settings) -> Settings {
    let sure = one_of(choices, all);
    sure.or(all.places().filter(|_| choices.once_in(2)).collect())
}

/// The goals of a real target, or a few made up.
fn asked(choices: &mut Choices, vehicle: &Vehicle, catalogue: &Catalogue) -> Result<Vec<Goal>> {
    if choices.once_in(3)
        && let Some(target) = choices.one_of(&catalogue.targets)
    {
        return goals(vehicle, target, &[]);
    }
    if vehicle.variables.is_empty() {
        return Err(Error::Internal("nothing fitted".to_owned()));
    }
    let goals = (0..choices.between(1, 4)).map(|number| goal(choices, vehicle, number));
    Ok(goals.collect())
}

fn goal(choices: &mut Choices, vehicle: &Vehicle, number: usize) -> Goal {
    let mut any_of: Vec<Literal> = Vec::new();
    let count = if choices.once_in(3) { 2 } else { 1 };
    for _ in 0..count {
        let variable = choices.below(vehicle.variables.len());
        // Nothing asks for an age of its own: a goal asks for what it is the age of.
        let age = vehicle.variables.get(variable).and_then(|one| one.age_of);
        let variable = age.map_or(variable, |age| age.variable);
        let all = vehicle.variables.get(variable).map_or(Settings::NONE, |known| known.all);
        let wanted = one_of(choices, all);
        let settings = if choices.once_in(4) { all.minus(wanted) } else { wanted };
        // Nothing asks for what runs by itself and must not end alone.
        let ages = vehicle.variables.iter().filter_map(|one| one.age_of);
        let mut runs = ages.filter(|age| age.attended && age.variable == variable);
        let settings = runs.next().map_or(settings, |age| all.minus(Settings::one(age.setting)));
        if !any_of.iter().any(|one| one.variable == variable) && !settings.is_empty() {
            any_of.push(Literal { variable, settings });
        }
    }
    let fresh = choices.once_in(3);
    Goal { of: GoalOf::Target(format!("g{number}")), any_of, fresh, severity: Severity::Damage }
}

impl fmt::Debug for Case {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(f, "{}{}", self.kinds, self.pack)?;
        let name = |one: &Literal| {
            let known = self.vehicle.variables.get(one.variable);
            known.map_or_else(String::new, |known| {
                format!("{} in {:?}", known.id, known.names_of(one.settings))
            })
        };
        for ((variable, settings), fresh) in self.beliefs.iter().enumerate().zip(&self.fresh) {
            let believed = name(&Literal { variable, settings: *settings });
            let fresh = if *fresh { ", fresh" } else { "" };
            let stuck = if self.stuck.contains(&variable) { ", stuck" } else { "" };
            writeln!(f, "{believed}{fresh}{stuck}")?;
        }
        writeln!(f, "in zone {:?}", self.vehicle.zones.get(self.zone).map(|zone| &zone.id))?;
        for goal in &self.goals {
            let any_of: Vec<_> = goal.any_of.iter().map(name).collect();
            let fresh = if goal.fresh { ", fresh" } else { "" };
            writeln!(f, "goal {:?}: {}{fresh}", goal.of, any_of.join(" or "))?;
        }
        Ok(())
    }
}
