//! "Never this while that": where a clause stands, what forbids a move, and the verdict on a
//! target.

mod clash;
mod goal;
mod permit;
#[cfg(test)]
mod tests;
mod verdict;

pub use clash::{Clash, clash};
pub use goal::{Goal, GoalOf, goals};
pub(crate) use goal::{before, ends, running, ways_out};
pub use permit::{Refusal, is_permitted, refusals};
pub(crate) use permit::{bears_on, new_settings};
pub use verdict::{Fault, Item, Verdict, VerdictKind, verdict};

use crate::vehicle::{Clause, Literal, Settings};

/// Where a clause stands for what is believed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Standing {
    /// It holds in no world: the rule is kept.
    Off,
    /// It may hold: not enough is known.
    Open,
    /// It holds in every world: the rule is broken.
    Broken,
}

/// What is believed of a variable: the settings that it may have. Unknown numbers have none.
#[must_use]
pub fn believed(beliefs: &[Settings], variable: usize) -> Settings {
    beliefs.get(variable).copied().unwrap_or(Settings::NONE)
}

/// Whether a literal holds in some world.
#[must_use]
pub fn may_hold(beliefs: &[Settings], literal: &Literal) -> bool {
    believed(beliefs, literal.variable).meets(literal.settings)
}

/// Whether a literal holds in every world.
#[must_use]
pub fn must_hold(beliefs: &[Settings], literal: &Literal) -> bool {
    let settings = believed(beliefs, literal.variable);
    !settings.is_empty() && settings.is_within(literal.settings)
}

/// Where a clause stands. A belief is a product of sets, one for each variable, so a conjunction
/// holds in no world exactly if one of its literals does, and in every world exactly if all do.
#[must_use]
pub fn standing(beliefs: &[Settings], clause: &Clause) -> Standing {
    if !clause.literals.iter().all(|literal| may_hold(beliefs, literal)) {
        Standing::Off
    } else if clause.literals.iter().all(|literal| must_hold(beliefs, literal)) {
        Standing::Broken
    } else {
        Standing::Open
    }
}
