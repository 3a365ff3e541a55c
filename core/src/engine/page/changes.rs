//! What comes back of a command.

use serde::Serialize;

/// What one command wrote.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Default)]
pub struct Changes {
    /// The entries written to the log.
    pub entries: Vec<i64>,
    /// What to tell the owner about them.
    pub warnings: Vec<String>,
}
