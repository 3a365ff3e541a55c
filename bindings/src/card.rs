//! How to use a fitting: the shapes that cross, as in `page.rs`, and their calls.

use stowfast_core::engine::{
    ActionRow, AgainstRow, CardPage, CardPhoto, CardRow, HitKind, HitRow, LinkRow, MayPage,
    MoveRow, SectionRow, StepKind, StepRow,
};

use crate::{Engine, EngineError, Moment};

type Result<T> = std::result::Result<T, EngineError>;

/// A fitting and where it is, as its card is headed.
#[uniffi::remote(Record)]
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
#[uniffi::remote(Record)]
pub struct SectionRow {
    /// Names it: `start`, `use`, `stop`, `care`, `normal` or `caution`.
    pub id: String,
    /// What it is about.
    pub title: String,
    /// In order.
    pub lines: Vec<String>,
}

/// A move or look of a fitting, and whether it may be taken as things stand.
#[uniffi::remote(Record)]
pub struct MoveRow {
    /// Names it to the engine.
    pub id: String,
    /// Something to do, or to look at.
    pub kind: StepKind,
    /// What to do.
    pub text: String,
    /// Names the place.
    pub zone_id: String,
    /// The place, in words.
    pub zone_title: String,
    /// True where a stray tap must not confirm it.
    pub hazard: bool,
    /// True where something speaks against it now.
    pub refused: bool,
    /// True where it would change nothing, as far as is known.
    pub is_so: bool,
    /// What of these two is to be said of it, in words; empty where neither.
    pub stands_text: String,
}

/// May this be done now? The answer about one step, in the vehicle's present state.
#[uniffi::remote(Record)]
pub struct MayPage {
    /// What is asked about, with its cautions.
    pub step: StepRow,
    /// True where something speaks against it now.
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
#[uniffi::remote(Record)]
pub struct AgainstRow {
    /// The reason.
    pub text: String,
    /// What removes it, in words: a step, or that it is only to be told.
    pub removed_text: Option<String>,
}

/// How to use one fitting here.
#[uniffi::remote(Record)]
pub struct CardPage {
    /// What it is and where.
    pub card: CardRow,
    /// The technician's note; empty where there is none.
    pub note: String,
    /// The photo of it, where there is one: see [`Engine::photo`].
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
#[uniffi::remote(Enum)]
pub enum HitKind {
    /// How to use a fitting: one of [`Engine::cards`].
    Card,
    /// What shows red: one of [`Engine::alerts`].
    Alert,
    /// What does not work, and the search for its cause.
    Fault,
    /// A way to somewhere: one of [`Engine::targets`].
    Routine,
    /// What is answered with numbers: one of [`Engine::reckonings`].
    Question,
    /// What threatens people, whether an alarm for it is fitted or not.
    Emergency,
}

/// A page that answers an owner's words.
#[uniffi::remote(Record)]
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
    /// True for an alarm of life: what to do at once comes before any page of it.
    pub emergency: bool,
}

#[uniffi::export]
impl Engine {
    /// The pages that an owner's own words may mean, the likeliest first. Nothing that is typed is an
    /// error, and only its beginning is read. The first call after a vehicle was read takes longer.
    ///
    /// # Errors
    /// [`EngineError::Conflict`] where no vehicle is chosen.
    pub fn find(&self, asked: String) -> Result<Vec<HitRow>> {
        Ok(self.lock()?.find(&asked)?)
    }

    /// Every fitting, in walking order; each has a card.
    ///
    /// # Errors
    /// [`EngineError::Conflict`] where no vehicle is chosen.
    pub fn cards(&self) -> Result<Vec<CardRow>> {
        Ok(self.lock()?.cards()?)
    }

    /// How to use one of [`Engine::cards`], and what may be done with it now.
    ///
    /// # Errors
    /// [`EngineError::NotFound`] for a fitting that is not there.
    pub fn card(&self, fitting_id: String, now: Moment) -> Result<CardPage> {
        Ok(self.lock()?.card(&fitting_id, &now.into())?)
    }

    /// Whether a move or look may be taken now, with every reason against it and all cautions.
    ///
    /// # Errors
    /// [`EngineError::NotFound`] for an unknown step.
    pub fn may(&self, step_id: String, now: Moment) -> Result<MayPage> {
        Ok(self.lock()?.may(&step_id, &now.into())?)
    }
}
