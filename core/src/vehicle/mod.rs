//! One vehicle: the pack joined with the catalogue. Every variable, clause, move and look of it,
//! by number, with nothing left to look up.

mod alert;
mod fault;
mod fitting;
mod ground;
mod measure;
mod settings;
mod settling;
mod zone;

use std::collections::BTreeMap;

use crate::catalogue::{self, Catalogue, Gesture, Lasts, Severity};
use crate::error::{Error, Result};
use crate::pack::Pack;
pub use alert::{Alert, Meaning};
pub use fault::{Answer, Cause, Fault, Helper, Question, Tool};
pub use fitting::{Drawn, Fitting, Gauge, PackValue};
pub use measure::{Axle, Measures};
pub use settings::Settings;
pub use settling::Settling;
pub use zone::{Walks, Zone};

/// The number of a variable within its vehicle.
pub type VariableId = usize;

/// A vehicle, ready to reason about.
#[derive(Debug, Clone)]
pub struct Vehicle {
    /// Its name.
    pub title: String,
    /// What it is, in a line.
    pub about: String,
    /// Invented for demonstration.
    pub invented: bool,
    /// Who made the pack, where it says so.
    pub technician: Option<String>,
    /// How long a departure stays open after the oldest look that it relies on. Unit: ms.
    pub departure_lapse_ms: i64,
    /// A wait longer than this ends a part of a routine. Unit: s.
    pub part_wait_s: u32,
    /// How far apart the lines of one list may be. Unit: s of walking.
    pub list_walk_s: u32,
    /// How large and how heavy it is.
    pub measures: Measures,
    /// Places to stand, in the technician's walking order.
    pub zones: Vec<Zone>,
    /// Walking times between zones.
    pub walks: Walks,
    /// The zone where a person starts when nobody has said where they are.
    pub home: usize,
    /// What is fitted, in the pack's order; what is always there comes last.
    pub fittings: Vec<Fitting>,
    /// What can be set or be so.
    pub variables: Vec<Variable>,
    /// Conditions that hold only together and have a name.
    pub chains: Vec<Chain>,
    /// What must never be, in the catalogue's order.
    pub clauses: Vec<Clause>,
    /// Moves and looks.
    pub actions: Vec<Action>,
    /// What time or temperature may change with nobody there.
    pub settlings: Vec<Settling>,
    /// What its fittings can show, in the catalogue's order.
    pub alerts: Vec<Alert>,
    /// What may not work, in the catalogue's order.
    pub faults: Vec<Fault>,
    /// What countries and carriers forbid or allow.
    pub local: catalogue::Local,
    numbers: BTreeMap<String, VariableId>,
}

/// Something that has one of a few settings.
#[derive(Debug, Clone)]
pub struct Variable {
    /// `fitting.variable`.
    pub id: String,
    /// Its id within the fitting.
    pub name: String,
    /// The fitting.
    pub fitting: usize,
    /// All settings of the kind, in order.
    pub settings: Vec<String>,
    /// Those that this fitting has.
    pub all: Settings,
    /// What it passes through while it is moved.
    pub middle: Settings,
    /// What is believed when nobody has said anything.
    pub assume: Settings,
    /// What a look is expected to find when nothing is known.
    pub usual: u8,
    /// Where it is worked.
    pub zone: usize,
    /// How long a look or move counts as fresh. Unit: ms.
    pub lapse_ms: i64,
    /// Changed only by reports.
    pub given: bool,
    /// For how long what is known of it counts.
    pub lasts: Lasts,
    /// What it is where there is nothing for it to be otherwise in.
    pub absent_to: Settings,
    /// Where that is; nowhere, if empty.
    pub absent_where: Vec<Literal>,
    /// A routine may leave it as it pleases.
    pub dont_care: bool,
    /// How its moves and looks are confirmed.
    pub gesture: Gesture,
    /// It only tells whether another variable has had a setting for long enough.
    pub age_of: Option<AgeOf>,
}

/// What an age is the age of. Its settings are `old` and `young`.
///
/// Young is not only "lately come to the setting" but also "not at it": a boiler is hot while it
/// heats and for a while after. So switching it off makes nothing possible that was not.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct AgeOf {
    /// The variable.
    pub variable: VariableId,
    /// The setting whose age counts.
    pub setting: u8,
    /// Up to here it is young. Unit: ms.
    pub limit_ms: i64,
    /// What is so runs by itself and must not end alone: once it is old, somebody is in its zone.
    pub attended: bool,
}

impl AgeOf {
    /// At that setting for long enough.
    pub const OLD: u8 = 0;
    /// Not at that setting, or not for long enough.
    pub const YOUNG: u8 = 1;
}

/// `variable in settings`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Literal {
    /// The variable.
    pub variable: VariableId,
    /// The settings that make it true.
    pub settings: Settings,
}

/// Literals that hold only together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Chain {
    /// `kind.chain`; one of that name for each fitting of the kind.
    pub id: String,
    /// One literal per variable.
    pub literals: Vec<Literal>,
}

/// Literals that must never all hold.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Clause {
    /// `kind.clause`.
    pub id: String,
    /// The fitting whose kind has the rule.
    pub fitting: usize,
    /// How bad it is.
    pub severity: Severity,
    /// One literal per variable.
    pub literals: Vec<Literal>,
    /// Where the rule comes from.
    pub source: String,
}

/// What an action is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Deed {
    /// It changes something.
    Move,
    /// It only shows something.
    Look,
    /// Time passes until something has been as it is for long enough.
    Wait,
}

/// One change that a move makes; of a look, what is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Effect {
    /// The variable.
    pub variable: VariableId,
    /// The setting it gets; of a look, what it is expected to show when nothing is known.
    pub to: u8,
    /// A side effect: the action throws the variable back, and nobody saw to it.
    pub spoilt: bool,
}

/// A move or a look.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Action {
    /// `fitting.move`, or `fitting.variable.look`.
    pub id: String,
    /// The move's id, or the variable's of a look.
    pub name: String,
    /// The fitting.
    pub fitting: usize,
    /// Move or look.
    pub deed: Deed,
    /// What must hold before.
    pub before: Vec<Literal>,
    /// What it changes; what a look shows.
    pub effects: Vec<Effect>,
    /// Hands-on time. Unit: s.
    pub seconds: u32,
    /// Where it is done.
    pub zone: usize,
    /// It bears on a hazard; a look does where a danger clause hangs on what it shows.
    pub hazard: bool,
    /// It cannot be taken back.
    pub irreversible: bool,
    /// It leaves the place, and so is a step of no routine.
    pub leaves: bool,
}

impl Vehicle {
    /// Joins a checked pack with the catalogue.
    ///
    /// # Errors
    /// [`Error::Pack`] where a fitting's settings leave a rule without meaning.
    pub fn new(pack: &Pack, catalogue: &Catalogue) -> Result<Self> {
        ground::vehicle(pack, catalogue)
    }

    /// What "any of these" means for this vehicle: one disjunction for each way to choose its
    /// `each` fittings; none where such a kind is not fitted.
    ///
    /// # Errors
    /// Only if catalogue and vehicle do not belong together.
    pub fn any_of(&self, literals: &[catalogue::Literal]) -> Result<Vec<Vec<Literal>>> {
        ground::any_of(self, literals)
    }

    /// The variables that say what is forbidden or allowed here, each with its id.
    pub fn local_rules(&self) -> impl Iterator<Item = (VariableId, &str)> {
        let of = |one: &Variable| self.fittings.get(one.fitting).map(|it| it.kind.as_str());
        let all = self.variables.iter().enumerate();
        let found = all.filter(move |(_, one)| of(one) == Some("local_rules"));
        found.map(|(number, one)| (number, one.name.as_str()))
    }

    /// The variable named `fitting.variable`.
    ///
    /// # Errors
    /// [`Error::NotFound`].
    pub fn variable(&self, id: &str) -> Result<VariableId> {
        let found = self.numbers.get(id).copied();
        found.ok_or_else(|| Error::NotFound { kind: "variable", id: id.to_owned() })
    }

    /// The action of that id and its number.
    ///
    /// # Errors
    /// [`Error::NotFound`].
    pub fn action(&self, id: &str) -> Result<(usize, &Action)> {
        let found = self.actions.iter().enumerate().find(|(_, action)| action.id == id);
        found.ok_or_else(|| Error::NotFound { kind: "step", id: id.to_owned() })
    }

    /// The place of a setting within a variable.
    ///
    /// # Errors
    /// [`Error::InvalidInput`] lists the settings there are.
    pub fn setting(&self, variable: VariableId, name: &str) -> Result<u8> {
        let known = self.variables.get(variable);
        let place = known
            .and_then(|known| known.settings.iter().position(|one| one == name))
            .and_then(|place| u8::try_from(place).ok())
            .filter(|place| known.is_some_and(|v| Settings::one(*place).is_within(v.all)));
        place.ok_or_else(|| Error::InvalidInput {
            field: known.map_or_else(String::new, |known| known.id.clone()),
            expected: known.map_or_else(String::new, |known| {
                known.all.places().filter_map(|at| known.name_of(at)).collect::<Vec<_>>().join(", ")
            }),
        })
    }

    /// Whether some fitting is of that kind and, where a pack value is named, has it so.
    #[must_use]
    pub fn has(&self, asked: &catalogue::Fitted) -> bool {
        self.of_kind(&asked.kind).any(|(_, fitting)| match (&asked.value, &asked.is) {
            (Some(value), Some(is)) => {
                fitting.values.get(value).is_some_and(|known| known.datum == *is)
            }
            (None, _) | (_, None) => true,
        })
    }

    /// Fittings of a kind, with their numbers, in the pack's order.
    pub fn of_kind(&self, kind: &str) -> impl Iterator<Item = (usize, &Fitting)> {
        self.fittings.iter().enumerate().filter(move |(_, fitting)| fitting.kind == kind)
    }

    /// That the wheels stand still: nobody works on a vehicle that moves, but for moves that say so.
    #[must_use]
    pub fn standing_still(&self) -> Option<Literal> {
        let (_, engine) = self.of_kind("engine").next()?;
        let variable = self.variable_of(engine, "wheels")?;
        let still = self.setting(variable, "still").ok()?;
        Some(Literal { variable, settings: Settings::one(still) })
    }

    /// A variable of a fitting.
    #[must_use]
    pub fn variable_of(&self, fitting: &Fitting, name: &str) -> Option<VariableId> {
        self.numbers.get(&format!("{}.{name}", fitting.id)).copied()
    }
}

impl Action {
    /// Whether it changes a variable by this effect: a look only sees what it looks at.
    #[must_use]
    pub fn brings(&self, effect: &Effect) -> bool {
        effect.spoilt || self.deed != Deed::Look
    }

    /// Makes what is believed before this action what is believed after it.
    pub fn apply(&self, beliefs: &mut [Settings]) {
        for effect in &self.effects {
            if let Some(belief) = beliefs.get_mut(effect.variable) {
                *belief = self.outcome(effect, *belief);
            }
        }
    }

    /// What is believed of a variable once this action was taken, from what was believed before:
    /// a move sets it; a look finds the only setting left, else the usual one, else the first.
    /// What an action throws back, it sets.
    #[must_use]
    pub fn outcome(&self, effect: &Effect, before: Settings) -> Settings {
        let to = Settings::one(effect.to);
        match self.deed {
            Deed::Move | Deed::Wait => to,
            Deed::Look if effect.spoilt || to.is_within(before) => to,
            Deed::Look => Settings::one(before.first()),
        }
    }
}

impl Variable {
    /// The name of the setting at a place.
    #[must_use]
    pub fn name_of(&self, place: u8) -> Option<&str> {
        self.settings.get(usize::from(place)).map(String::as_str)
    }

    /// The names of a set of settings, in order.
    #[must_use]
    pub fn names_of(&self, settings: Settings) -> Vec<String> {
        settings.places().filter_map(|at| self.name_of(at)).map(str::to_owned).collect()
    }
}
