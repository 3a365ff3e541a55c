//! Rows of cards: how to use one fitting here.

use serde::Serialize;

use super::{ActionRow, CardPhoto, LinkRow, StepKind, StepRow};

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

/// A move or look of a fitting, and whether it may be taken as things stand.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct MoveRow {
    /// Names it to the engine.
    pub id: String,
    /// Move or look.
    pub kind: StepKind,
    /// What to do.
    pub text: String,
    /// Names the place.
    pub zone_id: String,
    /// The place, in words.
    pub zone_title: String,
    /// It bears on a hazard.
    pub hazard: bool,
    /// Something speaks against it now.
    pub refused: bool,
    /// It would change nothing, as far as is known.
    pub is_so: bool,
    /// What of these two is to be said of it, in words; empty where neither.
    pub stands_text: String,
}

/// May this be done now? The answer about one step, in the vehicle's present state.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct MayPage {
    /// What is asked about, with its cautions.
    pub step: StepRow,
    /// Something speaks against it now.
    pub refused: bool,
    /// The answer, in words.
    pub answer: String,
    /// Every reason against it; none where it may be taken.
    pub against: Vec<AgainstRow>,
    /// What removes these, in order, as far as steps do.
    pub first: Vec<ActionRow>,
    /// The routine that makes ready for it and sees to all of it.
    pub routine: Option<LinkRow>,
}

/// A reason against a move or look.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct AgainstRow {
    /// The reason.
    pub text: String,
    /// What removes it, in words: a step, or that it is only to be told.
    pub removed_text: Option<String>,
}

/// How to use one fitting here.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct CardPage {
    /// What it is and where.
    pub card: CardRow,
    /// The technician's note; empty where there is none.
    pub note: String,
    /// The photo of it, where there is one.
    pub photo: Option<CardPhoto>,
    /// What there is to know, in order.
    pub sections: Vec<SectionRow>,
    /// What it can show red, or helps with.
    pub alerts: Vec<LinkRow>,
    /// What may not work of it, or where it helps.
    pub faults: Vec<LinkRow>,
    /// The routines that these lead to.
    pub routines: Vec<LinkRow>,
    /// Everything that can be done or looked at, and whether it may be now.
    pub steps: Vec<MoveRow>,
}

/// What sort of page was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum HitKind {
    /// How to use a fitting; its id is one of [`CardRow`].
    Card,
    /// What shows red; its id is one of [`super::AlertRow`].
    Alert,
    /// What does not work; its id is one of [`super::FaultRow`].
    Fault,
    /// A way to somewhere; its id is one of [`super::TargetRow`].
    Routine,
    /// What is answered with numbers; its id is one of [`super::ReckoningRow`].
    Question,
    /// What threatens people; its id is one of [`super::PerilRow`].
    Emergency,
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
    /// Of a card and a fault where it is, of an alert how it shows, of a question what it tells; empty for a routine.
    pub about: String,
    /// The line of it that was found; empty where its name was.
    pub line: String,
    /// It is an alarm of life: what to do at once comes before any page of it.
    pub emergency: bool,
}
