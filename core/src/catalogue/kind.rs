//! A kind of fitting as its data file tells it: settings, pack values, moves, looks, clauses.

use std::collections::BTreeMap;

use serde::Deserialize;

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
    /// What can be set or be so.
    #[serde(default, rename = "variable")]
    pub variables: Vec<Variable>,
    /// Numbers and choices that a pack may give, with their defaults.
    #[serde(default, rename = "value")]
    pub values: Vec<Value>,
    /// Other fittings that this one belongs to: role to kind.
    #[serde(default)]
    pub links: BTreeMap<String, String>,
    /// What a person can do with it.
    #[serde(default, rename = "move")]
    pub moves: Vec<Move>,
    /// What must never be.
    #[serde(default, rename = "clause")]
    pub clauses: Vec<Clause>,
    /// Instruments that show one of its variables.
    pub gauge: Option<Gauge>,
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
    /// Driving off leaves it behind: it is then as little known as at first.
    #[serde(default)]
    pub left_behind: bool,
    /// A routine may leave it as it pleases.
    #[serde(default)]
    pub dont_care: bool,
    /// The zone that it stands in, where that is not the fitting's.
    pub zone: Option<String>,
}

fn two_hours() -> u32 {
    120
}

/// A number, choice or flag that a pack may give.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Value {
    /// Its id; numbers end in their unit.
    pub id: String,
    /// What stands where the pack says nothing. Shown as "default, check your manual".
    pub default: Datum,
    /// The least number allowed.
    pub min: Option<f64>,
    /// The greatest number allowed.
    pub max: Option<f64>,
    /// How many numbers there must be.
    pub count: Option<usize>,
    /// The words allowed.
    #[serde(default)]
    pub one_of: Vec<String>,
    /// Where the default comes from.
    pub source: String,
}

/// What a pack value can be.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(untagged)]
pub enum Datum {
    /// A flag.
    Flag(bool),
    /// A number, in the unit that ends the value's name.
    Number(f64),
    /// A word.
    Word(String),
    /// Numbers in rising order.
    Numbers(Vec<f64>),
}

/// A condition on a pack value of the same fitting.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct When {
    /// The pack value.
    pub value: String,
    /// What it must be.
    pub is: Datum,
}

/// One thing a person can do.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Move {
    /// Its id within the fitting.
    pub id: String,
    /// Variable to setting: what it changes.
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
    /// Only where the pack says so.
    #[serde(default)]
    pub when: Vec<When>,
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
    /// `kind.variable`: one clause for each fitting of that kind.
    pub each: Option<String>,
    /// `kind.variable`: for all fittings of that kind at once.
    pub all: Option<String>,
    /// The settings that make it true.
    #[serde(rename = "in")]
    pub settings: Vec<String>,
    /// With `own` and one setting: true until the variable has had that setting for as long as
    /// this pack value of the fitting says. Unit: min.
    pub not_yet_for: Option<String>,
}

/// An instrument that shows a variable as bands.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Gauge {
    /// The variable that it shows.
    pub variable: String,
    /// What is measured.
    pub of: Measured,
    /// Variables of the fitting that bear on whether a reading counts, which only a person knows.
    #[serde(default)]
    pub asks: Vec<Ask>,
}

/// A question beside a reading.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Ask {
    /// The variable asked about.
    pub variable: String,
    /// Only where the pack says so.
    #[serde(default)]
    pub when: Vec<When>,
}

/// What a gauge measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Measured {
    /// The level in a tank.
    Tank,
    /// The charge of a battery by its voltage.
    Battery,
}
