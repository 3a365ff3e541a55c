//! What a screen can act on.

use stowfast_core::Error;

/// Why a call failed. Each variant has its own words in the app; the fields fill them in.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error, uniffi::Error)]
pub enum EngineError {
    /// A value is not one that the field takes.
    #[error("invalid input")]
    InvalidInput {
        /// The field or argument.
        field: String,
        /// What it takes.
        detail: String,
    },
    /// No such thing.
    #[error("not found")]
    NotFound {
        /// The kind of thing looked for.
        kind: String,
        /// The name that was given.
        id: String,
    },
    /// The request does not fit what is under way.
    #[error("conflict")]
    Conflict {
        /// Why it does not fit.
        detail: String,
    },
    /// A pack, or another file of an owner, cannot be used. Nothing was changed.
    #[error("broken pack")]
    BrokenPack {
        /// The file as the user named it.
        file: String,
        /// Counted from 1, or 0 where the fault has no line.
        line: i32,
        /// What should have stood there.
        expected: String,
    },
    /// No room left to write. Nothing was changed.
    #[error("storage is full")]
    StorageFull,
    /// The database was damaged and set aside.
    #[error("storage is damaged")]
    StorageDamaged {
        /// Where the damaged files now stand.
        kept_path: String,
    },
    /// The database was written by a newer Stowfast. It was not touched.
    #[error("newer database")]
    NewerDatabase {
        /// The version in the file.
        found: i64,
        /// The newest version that this program reads.
        supported: i64,
    },
    /// A fault of this program, or of the phone beneath it.
    #[error("internal")]
    Internal {
        /// For a report, never for a screen.
        detail: String,
    },
}

impl From<Error> for EngineError {
    fn from(error: Error) -> Self {
        let detail = error.to_string();
        match error {
            Error::Pack { file, line, expected } => {
                Self::BrokenPack { file, line: i32::try_from(line).unwrap_or(0), expected }
            }
            Error::InvalidInput { field, expected } => {
                Self::InvalidInput { field, detail: expected }
            }
            Error::NotFound { kind, id } => Self::NotFound { kind: kind.to_owned(), id },
            Error::Conflict { detail } => Self::Conflict { detail },
            Error::StorageFull => Self::StorageFull,
            Error::StorageDamaged { kept } => {
                Self::StorageDamaged { kept_path: kept.display().to_string() }
            }
            Error::NewerDatabase { found, supported } => Self::NewerDatabase { found, supported },
            Error::Catalogue { .. }
            | Error::Database(_)
            | Error::Io { .. }
            | Error::Internal(_) => Self::Internal { detail },
        }
    }
}

#[cfg(test)]
mod tests;
