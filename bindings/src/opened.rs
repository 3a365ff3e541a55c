//! What opening the database came upon.

use std::path::Path;

use stowfast_core::store::Opened;

/// What the owner must hear about the database. It is sound whatever stands here.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct OpenedRow {
    /// Where the damaged files now stand, whole and unchanged.
    pub set_aside_path: Option<String>,
    /// True where a backup took their place; what was said after it is missing.
    pub restored: bool,
    /// True where the backup that was due could not be made.
    pub backup_failed: bool,
}

impl OpenedRow {
    pub(crate) fn of(opened: Option<&Opened>) -> Self {
        let set_aside = opened.and_then(|opened| opened.set_aside.as_deref());
        Self {
            set_aside_path: set_aside.map(Path::display).map(|path| path.to_string()),
            restored: opened.is_some_and(|opened| opened.restored_from.is_some()),
            backup_failed: opened.is_some_and(|opened| opened.backup_failed.is_some()),
        }
    }
}
