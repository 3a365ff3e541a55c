//! What may not work in a vehicle, and how its cause is found.

use super::Literal;
pub use crate::catalogue::{Helper, Tool};

/// A symptom of a fitting.
#[derive(Debug, Clone, PartialEq)]
pub struct Fault {
    /// The symptom, and after a dot the fitting where the vehicle has several of the kind.
    pub id: String,
    /// The symptom, by which its words stand.
    pub symptom: String,
    /// The fitting that shows it.
    pub fitting: usize,
    /// Where its facts come from.
    pub source: String,
    /// Where the weights of its causes come from.
    pub likelihood: String,
    /// The fittings whose cards help, its own first.
    pub cards: Vec<usize>,
    /// The alerts from which its search begins, by number.
    pub alerts: Vec<usize>,
    /// What may cause it; the last is anything else, for a workshop.
    pub causes: Vec<Cause>,
    /// What tells them apart, in the order of the file.
    pub questions: Vec<Question>,
}

/// What may cause a symptom.
#[derive(Debug, Clone, PartialEq)]
pub struct Cause {
    /// Its id within the symptom.
    pub id: String,
    /// How often it is the cause, against the others.
    pub weight: f64,
    /// The ways in which the vehicle's state rules it out: each is a conjunction.
    pub unless: Vec<Vec<Literal>>,
    /// Nothing is wrong then.
    pub normal: bool,
    /// `target` or `target/part` that mends it.
    pub routine: Option<String>,
    /// Actions that mend it, by number.
    pub steps: Vec<usize>,
    /// Fittings whose cards help.
    pub cards: Vec<usize>,
    /// Who mends it, where the owner does not.
    pub ask: Option<Helper>,
}

/// What somebody can look at or try.
#[derive(Debug, Clone, PartialEq)]
pub struct Question {
    /// Its id within the symptom.
    pub id: String,
    /// The fitting where it is answered; anywhere, if `None`.
    pub fitting: Option<usize>,
    /// Where that is.
    pub zone: Option<usize>,
    /// Unit: s.
    pub seconds: u32,
    /// What it takes.
    pub tool: Tool,
    /// It bears on a hazard.
    pub danger: bool,
    /// Questions that come first, by number.
    pub after: Vec<usize>,
    /// What may be seen.
    pub answers: Vec<Answer>,
}

/// What may be seen.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// Its id within the question.
    pub id: String,
    /// Its chance under each cause.
    pub chance: Vec<f64>,
    /// The ways in which the vehicle's state gives it without asking: each is a conjunction.
    pub known: Vec<Vec<Literal>>,
    /// What it says of the vehicle.
    pub says: Vec<Literal>,
}
