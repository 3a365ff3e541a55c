//! A kind of fitting as its data file tells it: settings, pack values, moves, looks, clauses.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::Settling;
use super::value::{Lack, Value, ValueRule, When};

/// How bad it is when a clause is broken; the worst first.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Deserialize, serde::Serialize,
)]
#[serde(rename_all = "snake_case")]
pub enum Severity {
    /// Somebody may be hurt.
    Danger,
    /// Something may break.
    Damage,
    /// Only a bother: it never forbids a move, it costs.
    Nuisance,
}

/// One kind of fitting.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Kind {
    /// Its id, the name of its file.
    #[serde(skip)]
    pub id: String,
    /// Whether a pack without one fails its check.
    #[serde(default)]
    pub every_vehicle: bool,
    /// The zone of a kind that no pack lists because it is always there (the pitch, the post).
    pub always_in: Option<String>,
    /// At most this many in one pack.
    pub at_most: Option<usize>,
    /// Its steps belong together: with two people one does them all, with nothing between.
    #[serde(default)]
    pub one_person: bool,
    /// What can be set or be so.
    #[serde(default, rename = "variable")]
    pub variables: Vec<Variable>,
    /// Numbers and choices that a pack may give, with their defaults.
    #[serde(default, rename = "value")]
    pub values: Vec<Value>,
    /// What one pack value asks of another.
    #[serde(default, rename = "value_rule")]
    pub value_rules: Vec<ValueRule>,
    /// Other fittings that this one belongs to: role to kind.
    #[serde(default)]
    pub links: BTreeMap<String, String>,
    /// Roles that a pack may leave out though several fittings would do: it is then linked to none.
    #[serde(default)]
    pub may_link: Vec<String>,
    /// Conditions that hold only together, under a name.
    #[serde(default, rename = "chain")]
    pub chains: Vec<Chain>,
    /// What a person can do with it.
    #[serde(default, rename = "move")]
    pub moves: Vec<Move>,
    /// What must never be.
    #[serde(default, rename = "clause")]
    pub clauses: Vec<Clause>,
    /// What time or temperature may change with nobody there.
    #[serde(default, rename = "settling")]
    pub settlings: Vec<Settling>,
    /// Instruments that show one of its variables.
    pub gauge: Option<Gauge>,
    /// What it draws from the tank of another fitting.
    pub draws: Option<Draws>,
}

/// Something that has one of a few settings.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Variable {
    /// Its id within the fitting.
    pub id: String,
    /// Two to six settings, in their natural order.
    pub settings: Vec<String>,
    /// The setting it passes through while it is moved.
    pub middle: Option<String>,
    /// Where it stands when nobody has said otherwise; unknown without this.
    pub assume: Option<String>,
    /// What a look at it is expected to find when that is not known.
    pub usual: Option<String>,
    /// Seconds that a look takes; no look is possible without this. Unit: s.
    pub look_s: Option<u32>,
    /// What must hold before a look.
    #[serde(default)]
    pub look_before: Vec<Literal>,
    /// How long a look or move counts as fresh. Unit: min.
    #[serde(default = "two_hours")]
    pub lapse_min: u32,
    /// Changed only by reports, never by moves.
    #[serde(default)]
    pub given: bool,
    /// The setting that other actions throw it back to, and which: `kind.move`, or `*` for every
    /// move and look.
    pub spoilt_to: Option<String>,
    /// See `spoilt_to`.
    #[serde(default)]
    pub spoilt_by: Vec<String>,
    /// Moves that leave it alone all the same.
    #[serde(default)]
    pub kept_by: Vec<String>,
    /// The setting that it has where there is nothing for it to be otherwise in, and where that
    /// is: no plug is in a post that is not there.
    pub absent_to: Option<String>,
    /// See `absent_to`.
    #[serde(default)]
    pub absent_where: Vec<Literal>,
    /// For how long what is known of it counts.
    #[serde(default)]
    pub lasts: Lasts,
    /// Settings that a fitting lacks where its pack values say so.
    #[serde(default)]
    pub lacks: Vec<Lack>,
    /// A routine may leave it as it pleases.
    #[serde(default)]
    pub dont_care: bool,
    /// Settings that the vehicle shows by itself, by a lamp, a gauge, a word or a sound. Each has an
    /// alert.
    #[serde(default)]
    pub shows: Vec<String>,
    /// The zone that it stands in, where that is not the fitting's.
    pub zone: Option<String>,
    /// How its moves and looks are confirmed.
    #[serde(default)]
    pub gesture: Gesture,
}

/// For how long what is known of a variable counts. Then it is as little known as at first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Lasts {
    /// Until something else is said.
    #[default]
    Always,
    /// Until the vehicle drives off and leaves it behind.
    Stay,
    /// Until the vehicle comes to stand again.
    Trip,
}

/// How the steps about a variable are confirmed; the more deliberate one later.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Gesture {
    /// On one list with what else there is to see to.
    #[default]
    Together,
    /// On one list with its like only.
    Group,
    /// By a gesture of its own, each time.
    Own,
}

fn two_hours() -> u32 {
    120
}

/// One thing a person can do.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(clippy::struct_excessive_bools, reason = "each is a word of the data file")]
pub struct Move {
    /// Its id within the fitting.
    pub id: String,
    /// Variable to setting: what it changes; `role.variable` is that of a linked fitting, and is
    /// left alone where none is fitted.
    pub set: BTreeMap<String, String>,
    /// What must hold before it; it starts from anything, without this.
    #[serde(default)]
    pub before: Vec<Literal>,
    /// Hands-on time. Unit: s.
    pub seconds: u32,
    /// It bears on a hazard: confirmed on purpose, and early at a stop.
    #[serde(default)]
    pub hazard: bool,
    /// It cannot be taken back (water let out, gas spent): warned about before.
    #[serde(default)]
    pub irreversible: bool,
    /// It may be made while the wheels turn.
    #[serde(default)]
    pub while_moving: bool,
    /// It leaves the place, and so is a step of no routine: a routine makes ready for it.
    #[serde(default)]
    pub leaves: bool,
    /// It ends what its `held_for` says runs by itself, and somebody must be there from then on.
    #[serde(default)]
    pub attended: bool,
    /// Only where the pack says so.
    #[serde(default)]
    pub when: Vec<When>,
}

/// Conditions that hold only together, so that rules and advice can speak of them as one.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Chain {
    /// Its id within the kind.
    pub id: String,
    /// Every link of it. With `all`, a link of a kind that is not fitted is left out.
    pub holds: Vec<Literal>,
}

/// What must never be: every literal of `never` together, nor every literal of `nor`.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Clause {
    /// Its id within the kind.
    pub id: String,
    /// How bad it is.
    pub severity: Severity,
    /// The literals that must not all hold.
    pub never: Vec<Literal>,
    /// A second conjunction under the same rule.
    #[serde(default)]
    pub nor: Vec<Literal>,
    /// Only where the fittings that it is about draw more than this together, by their pack value
    /// `mains_w`. Unit: W.
    pub above_w: Option<f64>,
    /// Where the rule comes from, or "common practice, no source".
    pub source: String,
    /// Only where the pack says so.
    #[serde(default)]
    pub when: Vec<When>,
}

/// `variable in settings`, with one way to say whose variable it is.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Literal {
    /// A variable of this fitting.
    pub own: Option<String>,
    /// `role.variable` of a linked fitting.
    pub link: Option<String>,
    /// `kind.variable`: one clause for each fitting of that kind, but for the rule's own.
    pub each: Option<String>,
    /// `kind.variable`: for all fittings of that kind at once.
    pub all: Option<String>,
    /// `kind.chain`: every link of that chain. It has no settings of its own.
    pub chain: Option<String>,
    /// The settings that make it true.
    #[serde(default, rename = "in")]
    pub settings: Vec<String>,
    /// With one setting: true until the variable has had that setting for as long as this pack value
    /// of the rule's own fitting says. Its name ends in the unit: `_min`, `_h` or `_days`.
    pub not_yet_for: Option<String>,
    /// The contrary, of a condition: true once the variable has had that setting for so long. No
    /// rule may say so: what must happen before a time is advice.
    pub held_for: Option<String>,
}

impl Kind {
    /// The kind and variable that a move changes by `name`: its own, or `role.variable` of a linked
    /// fitting.
    #[must_use]
    pub fn set_by<'a>(&'a self, name: &'a str) -> Option<(&'a str, &'a str)> {
        match name.split_once('.') {
            None => Some((&self.id, name)),
            Some((role, variable)) => Some((self.links.get(role)?, variable)),
        }
    }

    /// Whether an age is that of something whose end is attended.
    #[must_use]
    pub fn attends(&self, age: &Literal) -> bool {
        let same = |one: &Literal| {
            one.held_for.is_some() && (&one.own, one.limit()) == (&age.own, age.limit())
        };
        let mut ends = self.moves.iter().filter(|step| step.attended);
        ends.any(|step| step.before.iter().any(same))
    }

    /// The ages that its rules, moves and looks speak of, each as a literal.
    pub fn ages(&self) -> impl Iterator<Item = &Literal> {
        let clauses = self.clauses.iter().flat_map(|clause| clause.never.iter().chain(&clause.nor));
        let moves = self.moves.iter().flat_map(|step| &step.before);
        let looks = self.variables.iter().flat_map(|known| &known.look_before);
        clauses.chain(moves).chain(looks).filter(|literal| literal.limit().is_some())
    }
}

impl Literal {
    /// The pack value that says for how long, where it speaks of an age.
    #[must_use]
    pub fn limit(&self) -> Option<&str> {
        self.not_yet_for.as_deref().or(self.held_for.as_deref())
    }

    /// The kind and variable that it is about, in a rule of `at`; neither for a chain.
    #[must_use]
    pub fn about<'a>(&'a self, at: Option<&'a Kind>) -> Option<(&'a str, &'a str)> {
        if let Some(variable) = &self.own {
            return Some((&at?.id, variable));
        }
        let path = [&self.link, &self.each, &self.all].into_iter().find_map(Option::as_deref)?;
        let (head, variable) = path.split_once('.')?;
        let linked = || at?.links.get(head).map(String::as_str);
        Some((if self.link.is_some() { linked()? } else { head }, variable))
    }
}

/// An instrument that shows a variable as bands.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Gauge {
    /// The variable that it shows.
    pub variable: String,
    /// What is measured.
    pub of: Measured,
    /// Which measure of the vehicle says what the tank holds, where that is no value of the kind. Without
    /// it in the pack there is no gauge.
    pub holds: Option<Holds>,
    /// The setting at which what it shows has run out: below the middle one for what is used up,
    /// above it for what fills.
    pub ends_at: String,
    /// Which habits use it up or fill it.
    pub used_by: Option<Habit>,
    /// Nothing uses it while the vehicle stands, but for what [`Draws`] from it.
    #[serde(default)]
    pub driving_only: bool,
    /// Driving uses it: what was read before a drive and after it says nothing of a day's use.
    #[serde(default)]
    pub used_by_driving: bool,
    /// What only a person knows and bears on whether a reading counts.
    #[serde(default)]
    pub asks: Vec<Ask>,
}

/// A measure of the vehicle that says what a tank holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Holds {
    /// `[measures] fuel_tank_l`.
    FuelTankL,
}

/// What a fitting draws from the tank of another, and down to where.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Draws {
    /// The kind whose gauge shows it.
    pub from: String,
    /// The pack value below which nothing more comes. Unit: per cent of the tank.
    pub down_to: String,
    /// Its own variable that says whether enough is there.
    pub variable: String,
    /// Its setting below that level.
    pub below: String,
    /// Its setting above.
    pub above: String,
}

/// A question beside a reading.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Ask {
    /// The variable of the fitting, or `kind.variable` of what is always there.
    pub variable: String,
    /// Only where the pack says so.
    #[serde(default)]
    pub when: Vec<When>,
}

/// What people use, as they tell it of themselves; see [`crate::reserve::water`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Habit {
    /// Water from the fresh tank.
    Fresh,
    /// What runs into the waste tank.
    Waste,
    /// What comes into the cassette.
    Cassette,
    /// What a heater burns of the vehicle's own fuel.
    Heating,
}

/// What a gauge measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Measured {
    /// The level in a tank.
    Tank,
    /// The charge of a battery by its voltage.
    Battery,
    /// What is left in a gas cylinder.
    Gas,
}
