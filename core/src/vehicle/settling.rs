//! What changes with nobody there, by number.

use super::{Literal, Settings, VariableId};

/// What time or temperature may do to a variable: see [`crate::catalogue::Settling`].
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Settling {
    /// Its id within the kind.
    pub name: String,
    /// The fitting.
    pub fitting: usize,
    /// The variable.
    pub variable: VariableId,
    /// It happens to what was last known to be one of these.
    pub from: Settings,
    /// What it may be as well.
    pub adds: Settings,
    /// It happens only while all of these may hold.
    pub during: Vec<Literal>,
    /// For how long all of that at the earliest, since it was last said. Unit: ms, ≥ 0.
    pub after_ms: i64,
    /// For how long for certain. Unit: ms, ≥ 0.
    pub latest_ms: Option<i64>,
}
