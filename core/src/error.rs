//! Everything that can go wrong, as data. A refusal to advise is not an error: see
//! [`crate::interlock`].

use std::path::PathBuf;

/// What is said of a file before what is wrong with it. The app's `problem_pack` says the same.
pub const NOT_OPENED: &str =
    "was not opened, and nothing was changed. Send the lines below to whoever made it.";

/// What failed, with the values a screen needs to say it. The user's words live elsewhere.
#[derive(Debug, thiserror::Error)]
pub enum Error {
    /// A pack, a place or an exported file cannot be used; nothing was changed.
    #[error("{file}{}: expected {expected}", place(*line))]
    Pack {
        /// The file as the user named it.
        file: String,
        /// 1-based line, or 0 where the fault has no line (not text, too large).
        line: usize,
        /// What should have stood there.
        expected: String,
    },
    /// The catalogue that is built in contradicts itself.
    #[error("catalogue {file}: {detail}")]
    Catalogue {
        /// The catalogue file.
        file: String,
        /// What is wrong with it.
        detail: String,
    },
    /// A value is not one that the field takes.
    #[error("{field}: expected {expected}")]
    InvalidInput {
        /// What was typed or picked, as an owner calls it: never by an id.
        field: String,
        /// What it takes.
        expected: String,
    },
    /// No such thing.
    #[error("no {} named {id}", plain(kind))]
    NotFound {
        /// The kind of thing looked for, as the program calls it.
        kind: &'static str,
        /// The name that was given.
        id: String,
    },
    /// The request does not fit what is under way.
    #[error("{detail}")]
    Conflict {
        /// Why it does not fit.
        detail: String,
    },
    /// No room left to write; nothing was changed.
    #[error("storage is full")]
    StorageFull,
    /// The database was damaged. It was set aside, never deleted.
    #[error("the database was damaged and is kept at {}", kept.display())]
    StorageDamaged {
        /// Where the damaged files now stand.
        kept: PathBuf,
    },
    /// The database was written by a newer Stowfast; it was not touched.
    #[error("database version {found} is newer than {supported}")]
    NewerDatabase {
        /// The version in the file.
        found: i64,
        /// The newest version that this program reads.
        supported: i64,
    },
    /// SQLite refused.
    #[error("database: {0}")]
    Database(rusqlite::Error),
    /// A file could not be read or written.
    #[error("{}: {}", path.display(), why(source))]
    Io {
        /// The file.
        path: PathBuf,
        /// What the system said.
        source: std::io::Error,
    },
    /// A fault of this program.
    #[error("internal: {0}")]
    Internal(String),
}

/// Why a file cannot be had.
fn why(source: &std::io::Error) -> String {
    use std::io::ErrorKind::{IsADirectory, NotFound, PermissionDenied};
    let known = [
        (NotFound, "there is no such file or folder"),
        (IsADirectory, "this is a folder, and a file is needed"),
        (PermissionDenied, "you may not read or write this"),
    ];
    let known = known.iter().find(|(kind, _)| *kind == source.kind());
    known.map_or_else(|| source.to_string(), |(_, said)| (*said).to_owned())
}

/// `:7` for line 7, nothing for a fault without a line.
fn place(line: usize) -> String {
    if line == 0 { String::new() } else { format!(":{line}") }
}

/// What an owner calls a kind of thing.
fn plain(kind: &'static str) -> &'static str {
    match kind {
        "check" => "question",
        "demonstration" => "invented vehicle",
        "figure" => "number that people tell",
        "run" => "routine under way",
        "stuck entry" => "thing left undone with an entry",
        "target" => "routine",
        "variable" => "thing",
        "variant" => "way of wanting it",
        own => own,
    }
}

impl Error {
    /// What whoever opened somebody's file reads first: the rest is for whoever made it.
    #[must_use]
    pub fn for_owner(&self) -> Option<String> {
        let Self::Pack { file, .. } = self else { return None };
        Some(format!("{file} {NOT_OPENED}"))
    }

    /// A stable short name, for tests, logs and JSON.
    #[must_use]
    pub fn code(&self) -> &'static str {
        match self {
            Self::Pack { .. } => "pack",
            Self::Catalogue { .. } => "catalogue",
            Self::InvalidInput { .. } => "invalid_input",
            Self::NotFound { .. } => "not_found",
            Self::Conflict { .. } => "conflict",
            Self::StorageFull => "storage_full",
            Self::StorageDamaged { .. } => "storage_damaged",
            Self::NewerDatabase { .. } => "newer_database",
            Self::Database(_) => "database",
            Self::Io { .. } => "io",
            Self::Internal(_) => "internal",
        }
    }
}

impl From<rusqlite::Error> for Error {
    fn from(error: rusqlite::Error) -> Self {
        // A full disk shows first where the shared index of the write-ahead log should grow.
        let no_room = [rusqlite::ffi::SQLITE_FULL, rusqlite::ffi::SQLITE_IOERR_SHMSIZE];
        match error.sqlite_error() {
            Some(fault) if no_room.contains(&fault.extended_code) => Self::StorageFull,
            _ => Self::Database(error),
        }
    }
}

/// A result whose error is [`enum@Error`].
pub type Result<T> = std::result::Result<T, Error>;
