//! What a vehicle's fittings can show, and what that can mean.

use super::Literal;
use crate::catalogue::{Seen, Symbol};

/// An indication of a fitting.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Alert {
    /// `fitting.alert`, or `kind.alert` where the vehicle has one for all its fittings.
    pub id: String,
    /// What its words stand under, below those of its kind.
    pub words: String,
    /// The fitting that shows it.
    pub fitting: usize,
    /// What it is drawn as.
    pub symbol: Symbol,
    /// Where somebody meets it.
    pub seen: Seen,
    /// That it shows, as a fact.
    pub report: Option<Literal>,
    /// The ways in which it shows: each is a conjunction.
    pub shows: Vec<Vec<Literal>>,
    /// The fittings whose cards help, its own first.
    pub cards: Vec<usize>,
    /// Where it comes from.
    pub source: String,
    /// What it can mean, the most telling first. The last one holds anywhere.
    pub meanings: Vec<Meaning>,
}

/// What an alert can mean.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Meaning {
    /// Its id within the alert.
    pub id: String,
    /// The ways in which it means that: each is a conjunction.
    pub ways: Vec<Vec<Literal>>,
    /// Nothing is wrong then.
    pub normal: bool,
    /// `target` or `target/part`.
    pub routine: Option<String>,
    /// Actions that mend it, by number.
    pub steps: Vec<usize>,
    /// What somebody who looks may find.
    pub finds: Vec<Literal>,
}
