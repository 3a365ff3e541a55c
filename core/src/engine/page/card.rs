//! Rows of cards: how to use one fitting here.

use serde::Serialize;

use super::{ActionRow, LinkRow};

/// A fitting, as its card is headed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct CardRow {
    /// Names the fitting to the engine; what stands before the first dot of its steps.
    pub id: String,
    /// Its kind.
    pub kind: String,
    /// What the technician calls it.
    pub title: String,
    /// Names the place where it is, or the first of them.
    pub zone_id: String,
    /// Every place where something of it is, in words.
    pub zone_title: String,
}

/// A part of a card.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SectionRow {
    /// Names it: `start`, `use`, `stop`, `care`, `normal` or `caution`.
    pub id: String,
    /// What it is about.
    pub title: String,
    /// In order.
    pub lines: Vec<String>,
}

/// How to use one fitting here.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct CardPage {
    /// What it is and where.
    pub card: CardRow,
    /// The technician's note; empty where there is none.
    pub note: String,
    /// What there is to know, in order.
    pub sections: Vec<SectionRow>,
    /// What it can show red, or helps with.
    pub alerts: Vec<LinkRow>,
    /// The routines that these lead to.
    pub routines: Vec<LinkRow>,
    /// Everything that can be done or looked at.
    pub steps: Vec<ActionRow>,
}

/// What sort of page was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum HitKind {
    /// How to use a fitting; its id is one of [`CardRow`].
    Card,
    /// What shows red; its id is one of [`super::AlertRow`].
    Alert,
    /// A way to somewhere; its id is one of [`super::TargetRow`].
    Routine,
}

/// A page that answers an owner's words.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct HitRow {
    /// What sort of page it is.
    pub kind: HitKind,
    /// Names the page to the engine.
    pub id: String,
    /// What it is called.
    pub title: String,
    /// Of a card where it is, of an alert how it shows; empty for a routine.
    pub about: String,
    /// The line of it that was found; empty where its name was.
    pub line: String,
}
