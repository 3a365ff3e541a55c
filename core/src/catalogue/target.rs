//! A target: what a routine leads to. Adding one is adding a data file.

use serde::Deserialize;

use super::kind::Literal;

/// What a routine leads to.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Target {
    /// Its id, the name of its file.
    #[serde(skip)]
    pub id: String,
    /// The order in which targets are offered.
    pub rank: u32,
    /// Whether reaching it opens a departure.
    #[serde(default)]
    pub road: bool,
    /// Kinds without which a vehicle is not offered it.
    #[serde(default)]
    pub needs: Vec<String>,
    /// Everything that this move, as `kind.move`, must not meet: its clauses become part of the
    /// target. So a rule of the road stands once, in its clause.
    pub ready_for: Option<String>,
    /// Facts that are to come (a fuel station forbids flames): everything that they must not meet is
    /// part of the target too, so that rule as well stands once.
    #[serde(default)]
    pub before: Vec<Literal>,
    /// What must be so.
    #[serde(default, rename = "goal")]
    pub goals: Vec<Goal>,
}

/// One thing that must be so: any of these literals.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Goal {
    /// Its id within the target.
    pub id: String,
    /// Any one of them will do.
    pub any_of: Vec<Literal>,
    /// It is asked only where all of these are known to hold: what the place offers, the season.
    #[serde(default)]
    pub only_if: Vec<Literal>,
    /// It must have been done or looked at for this departure.
    #[serde(default)]
    pub fresh: bool,
}
