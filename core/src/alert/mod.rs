//! Alerts: whether an indication shows, and what it means in the vehicle's present state.

use crate::interlock::{may_hold, must_hold};
use crate::vehicle::{Alert, Literal, Meaning, Settings};

/// Whether an alert shows, as far as is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Shown {
    /// It must.
    Yes,
    /// It may.
    Unknown,
    /// It cannot.
    No,
}

/// Whether any of some ways to be so holds: each is a conjunction.
fn any(ways: &[Vec<Literal>], beliefs: &[Settings]) -> Shown {
    let all = |holds: fn(&[Settings], &Literal) -> bool| {
        ways.iter().any(|way| way.iter().all(|literal| holds(beliefs, literal)))
    };
    match (all(must_hold), all(may_hold)) {
        (true, _) => Shown::Yes,
        (false, true) => Shown::Unknown,
        (false, false) => Shown::No,
    }
}

/// Whether an alert shows, as far as is believed.
#[must_use]
pub fn shown(alert: &Alert, beliefs: &[Settings]) -> Shown {
    any(&alert.shows, beliefs)
}

/// What an alert means, and whether that is certain: first what is known to be so; where nothing
/// is, what holds anywhere; then what may be so as well, unless nothing is wrong. Never empty.
#[must_use]
pub fn meanings<'a>(alert: &'a Alert, beliefs: &[Settings]) -> Vec<(&'a Meaning, bool)> {
    let Some((anywhere, others)) = alert.meanings.split_last() else { return Vec::new() };
    let held = |wanted: Shown| {
        let found = others.iter().filter(move |one| any(&one.ways, beliefs) == wanted);
        found.map(move |one| (one, wanted == Shown::Yes))
    };
    let mut meanings: Vec<_> = held(Shown::Yes).collect();
    if meanings.is_empty() {
        meanings.push((anywhere, false));
    }
    if !meanings.iter().any(|(meaning, _)| meaning.normal) {
        meanings.extend(held(Shown::Unknown));
    }
    meanings
}
