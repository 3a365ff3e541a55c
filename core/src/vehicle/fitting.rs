//! What is fitted, with its pack values and its instrument.

use std::collections::BTreeMap;

use super::VariableId;
use crate::catalogue::{Datum, Habit, Measured};

/// A fitting of the vehicle.
#[derive(Debug, Clone)]
pub struct Fitting {
    /// Its id within the pack.
    pub id: String,
    /// Its kind.
    pub kind: String,
    /// Its steps belong together: with two people one does them all, with nothing between.
    pub one_person: bool,
    /// The technician's title; empty for what is always there.
    pub title: String,
    /// The technician's note; empty where there is none.
    pub note: String,
    /// The name of a photo of it, as the pack has it.
    pub photo: Option<String>,
    /// Its pack values, the kind's defaults included; what has no default is there only if given.
    pub values: BTreeMap<String, PackValue>,
    /// The instrument that shows one of its variables.
    pub gauge: Option<Gauge>,
}

/// An instrument of a fitting.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Gauge {
    /// The variable that it shows.
    pub variable: VariableId,
    /// What it measures.
    pub of: Measured,
    /// The setting at which it has run out, by its place.
    pub end: u8,
    /// Use fills it, as a waste tank.
    pub fills: bool,
    /// Which habits use it up or fill it.
    pub used_by: Option<Habit>,
    /// Nothing uses it while the vehicle stands.
    pub driving_only: bool,
    /// Driving uses it.
    pub used_by_driving: bool,
    /// What else draws from it.
    pub drawn_by: Vec<Drawn>,
    /// What only a person knows and bears on whether a reading counts.
    pub asks: Vec<VariableId>,
}

/// What another fitting draws from a tank.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Drawn {
    /// Below this level of the tank nothing more comes; `None` where the pack does not say it. Unit:
    /// thousandths of it.
    pub down_to_permille: Option<i64>,
    /// The variable of the other that says whether enough is there.
    pub variable: VariableId,
    /// Its setting below that level, by its place.
    pub below: u8,
    /// Its setting above.
    pub above: u8,
}

/// A value of a fitting, and whether the pack gave it.
#[derive(Debug, Clone, PartialEq)]
pub struct PackValue {
    /// The value.
    pub datum: Datum,
    /// Not given by the pack: "default, check your manual".
    pub defaulted: bool,
    /// Where the default comes from.
    pub source: String,
}

impl Fitting {
    /// A number of the pack, in the unit that ends its name; `None` if the kind has none such.
    #[must_use]
    pub fn number(&self, value: &str) -> Option<f64> {
        match &self.values.get(value)?.datum {
            Datum::Number(number) => Some(*number),
            Datum::Flag(_) | Datum::Word(_) | Datum::Numbers(_) => None,
        }
    }

    /// A number that the pack itself gives: a default is not a fact.
    #[must_use]
    pub fn given(&self, value: &str) -> Option<f64> {
        self.values.get(value).filter(|value| !value.defaulted)?;
        self.number(value)
    }

    /// Numbers of the pack in rising order; `None` if the kind has none such.
    #[must_use]
    pub fn numbers(&self, value: &str) -> Option<&[f64]> {
        match &self.values.get(value)?.datum {
            Datum::Numbers(numbers) => Some(numbers),
            Datum::Flag(_) | Datum::Word(_) | Datum::Number(_) => None,
        }
    }

    /// A word of the pack; `None` if the kind has none such.
    #[must_use]
    pub fn word(&self, value: &str) -> Option<&str> {
        match &self.values.get(value)?.datum {
            Datum::Word(word) => Some(word),
            Datum::Flag(_) | Datum::Number(_) | Datum::Numbers(_) => None,
        }
    }

    /// A flag of the pack; `None` if the kind has none such.
    #[must_use]
    pub fn flag(&self, value: &str) -> Option<bool> {
        match &self.values.get(value)?.datum {
            Datum::Flag(flag) => Some(*flag),
            Datum::Word(_) | Datum::Number(_) | Datum::Numbers(_) => None,
        }
    }
}
