//! Pack values: what a pack may say of one fitting, and what hangs on it.

use std::fmt;

use serde::Deserialize;

/// A number, choice or flag that a pack may give.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Value {
    /// Its id; numbers end in their unit.
    pub id: String,
    /// What stands where the pack says nothing. Shown as "default, check your manual". Without it, a
    /// number from `min` to `max` of which there is then none: it is said not to be in the pack.
    pub default: Option<Datum>,
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

impl Value {
    /// Whether a pack may give this.
    #[must_use]
    pub fn takes(&self, datum: &Datum) -> bool {
        let in_range = |number: &f64| {
            number.is_finite()
                && self.min.is_none_or(|min| *number >= min)
                && self.max.is_none_or(|max| *number <= max)
        };
        match (&self.default, datum) {
            (Some(Datum::Flag(_)), Datum::Flag(_)) => true,
            (Some(Datum::Number(_)) | None, Datum::Number(number)) => in_range(number),
            (Some(Datum::Word(_)), Datum::Word(word)) => {
                self.one_of.is_empty() || self.one_of.contains(word)
            }
            (Some(Datum::Numbers(_)), Datum::Numbers(numbers)) => {
                !numbers.is_empty()
                    && numbers.iter().all(in_range)
                    && self.count.is_none_or(|count| numbers.len() == count)
                    && numbers.is_sorted_by(|a, b| a < b)
            }
            _ => false,
        }
    }
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

/// As a pack file writes it.
impl fmt::Display for Datum {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Flag(flag) => write!(f, "{flag}"),
            Self::Number(number) => write!(f, "{number}"),
            Self::Word(word) => write!(f, "\"{word}\""),
            Self::Numbers(numbers) => write!(f, "{numbers:?}"),
        }
    }
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

/// As a pack file writes it.
impl fmt::Display for When {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} = {}", self.value, self.is)
    }
}

/// A pack value that may be what it is only with another one. The pack's check refuses it without.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ValueRule {
    /// Where this is so,
    pub when: When,
    /// this must be so too.
    pub asks: When,
    /// Where the rule comes from, or "common practice, no source".
    pub source: String,
}

/// A setting that a fitting does not have.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Lack {
    /// The setting.
    pub setting: String,
    /// Where the pack says so.
    pub when: Vec<When>,
}
