//! What changes with nobody there, as a kind's data file tells it.

use serde::Deserialize;

use super::Literal;
use super::value::When;

/// What time or temperature may do to a variable that nobody has looked at since: from its
/// earliest on it may have other settings too.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Settling {
    /// Its id within the kind.
    pub id: String,
    /// The variable.
    pub variable: String,
    /// It happens only to what was last known to be one of these, or may be.
    pub from: Vec<String>,
    /// What it may be as well.
    pub adds: Vec<String>,
    /// The pack value that says for how long, since it was last said, all of `while` may have held
    /// at the earliest; its unit ends its name: `_min`, `_h` or `_days`.
    pub after: String,
    /// It happens only while all of this may be so, as far as was said. Where an `each` finds no
    /// fitting it never happens.
    #[serde(default, rename = "while")]
    pub during: Vec<Literal>,
    /// The pack value that says after how long it has happened for certain, so that `from` is over.
    /// Only of a variable on which no danger clause hangs.
    pub latest: Option<String>,
    /// Only where the pack says so.
    #[serde(default)]
    pub when: Vec<When>,
    /// Where it comes from, or "common practice, no source".
    pub source: String,
}
