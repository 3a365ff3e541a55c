//! A target: what a routine leads to. Adding one is adding a data file.

use serde::Deserialize;

use super::kind::Literal;
use super::value::Datum;

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
    /// What ends as it was found, though its kind lets a routine leave it as it pleases; the settings
    /// are those that it may be found in.
    #[serde(default)]
    pub put_back: Vec<Literal>,
    /// Ways to want it, of which one is chosen: at most [`VARIANTS_MAX`].
    #[serde(default, rename = "variant")]
    pub variants: Vec<Variant>,
    /// Which of them this is.
    #[serde(skip)]
    pub variant: Option<String>,
    /// What opening it says: given facts, each as one literal. A variant adds its own, and is chosen
    /// by itself only where they hold already.
    #[serde(default)]
    pub says: Vec<Literal>,
    /// The target that this one leads out of: what that one `says` stands until this one is opened,
    /// and meanwhile the first page offers this one first.
    pub ends: Option<String>,
    /// No target of the catalogue: how things stood before that entry of the log.
    #[serde(skip)]
    pub back_to: Option<i64>,
}

/// Most variants of a target.
pub const VARIANTS_MAX: usize = 8;

/// The id that stands for "as it was" where the log names what a routine leads to.
pub const BACK: &str = "back";

/// One way to want a target.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Variant {
    /// Its id within the target.
    pub id: String,
    /// Pack values without which it is not offered.
    #[serde(default)]
    pub only_if: Vec<Fitted>,
    /// What choosing it says: given facts, each as one literal. Where they do not hold yet, only
    /// the owner can choose it.
    #[serde(default)]
    pub says: Vec<Literal>,
    /// Goals beside the common ones; one of the same id takes the place of the common one.
    #[serde(default, rename = "goal")]
    pub goals: Vec<Goal>,
}

/// A pack value of some fitting of a kind; without a value, that one is fitted.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Fitted {
    /// The kind.
    pub kind: String,
    /// The value.
    pub value: Option<String>,
    /// What it must be.
    pub is: Option<Datum>,
}

impl Target {
    /// How things stood before that entry of the log, as something to get back to.
    #[must_use]
    pub fn back_to(entry: i64) -> Self {
        Self {
            id: BACK.to_owned(),
            rank: 0,
            road: false,
            needs: Vec::new(),
            ready_for: None,
            before: Vec::new(),
            goals: Vec::new(),
            put_back: Vec::new(),
            variants: Vec::new(),
            variant: None,
            says: Vec::new(),
            ends: None,
            back_to: Some(entry),
        }
    }

    /// The target as one of its variants wants it. The words of a variant's goal stand under
    /// `goal.<variant>.<goal>`.
    #[must_use]
    pub fn as_variant(&self, variant: &Variant) -> Self {
        let replaced = |goal: &&Goal| !variant.goals.iter().any(|own| own.id == goal.id);
        let own = variant
            .goals
            .iter()
            .map(|goal| Goal { id: format!("{}.{}", variant.id, goal.id), ..goal.clone() });
        Self {
            goals: self.goals.iter().filter(replaced).cloned().chain(own).collect(),
            variants: Vec::new(),
            variant: Some(variant.id.clone()),
            says: [self.says.as_slice(), &variant.says].concat(),
            ..self.clone()
        }
    }

    /// The target with only the parts that are named, as `part+part`: they are asked for whatever
    /// the place offers. `None` where it lacks one of them.
    #[must_use]
    pub fn only(&self, named: &str) -> Option<Self> {
        let parts: Vec<&str> = named.split('+').collect();
        if !parts.iter().all(|part| self.has_part(part)) {
            return None;
        }
        let asked = self.goals.iter().filter_map(|goal| match goal.part.as_deref() {
            None => Some(goal.clone()),
            Some(part) if parts.contains(&part) => {
                Some(Goal { only_if: Vec::new(), ..goal.clone() })
            }
            Some(_) => None,
        });
        Some(Self {
            goals: asked.collect(),
            variants: Vec::new(),
            variant: Some(named.to_owned()),
            ..self.clone()
        })
    }

    fn has_part(&self, part: &str) -> bool {
        self.goals.iter().any(|goal| goal.part.as_deref() == Some(part))
    }

    /// What an owner asks for: the target, or its parts, without its variant.
    #[must_use]
    pub fn named(&self) -> String {
        let has = |part| self.has_part(part);
        let in_parts = self.variant.as_ref().is_none_or(|named| named.split('+').all(has));
        if in_parts || self.back_to.is_some() { self.key() } else { self.id.clone() }
    }

    /// What the log calls it: `target`, `target/variant`, `target/part+part` or `back/entry`.
    #[must_use]
    pub fn key(&self) -> String {
        match (self.back_to, &self.variant) {
            (Some(entry), _) => format!("{}/{entry}", self.id),
            (None, Some(variant)) => format!("{}/{variant}", self.id),
            (None, None) => self.id.clone(),
        }
    }
}

/// The entry that `back/entry` names: see [`Target::key`].
pub(crate) fn back(key: &str) -> Option<i64> {
    key.strip_prefix(BACK)?.strip_prefix('/')?.parse().ok()
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
    /// It is asked only where all of these are fitted so: what the pack says.
    #[serde(default)]
    pub when: Vec<Fitted>,
    /// The part of the target that it belongs to, where a person may ask for some parts only.
    pub part: Option<String>,
    /// It must have been done or looked at for this departure.
    #[serde(default)]
    pub fresh: bool,
}
