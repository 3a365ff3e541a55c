//! Rows of photos of fittings.

use serde::Serialize;

/// A photo of a fitting.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PhotoRow {
    /// Names the fitting to the engine.
    pub id: String,
    /// What is to be seen on it.
    pub title: String,
    /// Who gave it.
    pub by_text: String,
    /// That the vehicle no longer has what is on it; empty where it has.
    pub note: String,
    /// How large it is. Unit: bytes.
    pub bytes: i64,
}

/// What a card says of its photo.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct CardPhoto {
    /// What is to be seen on it; also for whoever cannot see it.
    pub title: String,
    /// Who gave it.
    pub by_text: String,
}
