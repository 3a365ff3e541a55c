//! All that the vehicle has, asked for or not, and a way that two people share.

use stowfast_core::engine::{
    ActionRow, ChoiceRow, OrderProof, PersonRow, SharedPage, SharedStepRow, StepKind, StepRow,
    ThingRow,
};

use crate::{Engine, EngineError, Moment};

type Result<T> = std::result::Result<T, EngineError>;

/// One move or look of the vehicle.
#[uniffi::remote(Record)]
pub struct ActionRow {
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
}

/// One thing that can be reported, and what is believed of it.
#[uniffi::remote(Record)]
pub struct ThingRow {
    /// Names the variable to the engine.
    pub variable: String,
    /// What it is.
    pub title: String,
    /// Names the place.
    pub zone_id: String,
    /// The place, in words.
    pub zone_title: String,
    /// What it can be.
    pub choices: Vec<ChoiceRow>,
    /// The choices that it may have, by id: one where it is known.
    pub believed: Vec<String>,
    /// The same in words.
    pub current_text: String,
    /// How long ago that was said.
    pub age_text: Option<String>,
}

/// One step of one person.
#[uniffi::remote(Record)]
pub struct SharedStepRow {
    /// The step; its walk is that of this person.
    pub step: StepRow,
    /// When it starts, if all goes as planned. Unit: s from the start.
    pub start_s: i32,
    /// Names the step of the other whose end must be said before.
    pub word_id: Option<String>,
    /// The same in words.
    pub word_text: Option<String>,
}

/// What one person does.
#[uniffi::remote(Record)]
pub struct PersonRow {
    /// Which of the two.
    pub title: String,
    /// In order.
    pub steps: Vec<SharedStepRow>,
}

/// A way that two people share.
#[uniffi::remote(Record)]
pub struct SharedPage {
    /// What it leads to.
    pub target_id: String,
    /// The same in words.
    pub target_title: String,
    /// What it takes for two and for one, or that it stays with one.
    pub headline: String,
    /// What to know on the way.
    pub warnings: Vec<String>,
    /// Why the target cannot be reached, where it cannot.
    pub impossible: Vec<String>,
    /// What each does: two lists, or one where nothing can be shared.
    pub people: Vec<PersonRow>,
    /// What it takes for two. Unit: s.
    pub elapsed_s: i32,
    /// What it takes for one. Unit: s.
    pub alone_s: i32,
    /// Walking of both. Unit: s.
    pub walk_s: i32,
    /// How far it is from the best way to share these steps.
    pub proof: OrderProof,
}

#[uniffi::export]
impl Engine {
    /// Every move and look of the vehicle, in walking order.
    ///
    /// # Errors
    /// [`EngineError::Conflict`] where no vehicle is chosen.
    pub fn steps(&self) -> Result<Vec<ActionRow>> {
        Ok(self.lock()?.steps()?)
    }

    /// Everything that can be reported, in walking order, and what is believed of it.
    ///
    /// # Errors
    /// [`EngineError::Conflict`] where no vehicle is chosen.
    pub fn things(&self, now: Moment) -> Result<Vec<ThingRow>> {
        Ok(self.lock()?.things(&now.into())?)
    }

    /// The way to a target from where everything stands, shared out between two people.
    ///
    /// # Errors
    /// As [`Engine::preview`].
    pub fn shared(&self, target_id: String, now: Moment) -> Result<SharedPage> {
        Ok(self.lock()?.shared(&target_id, &now.into())?)
    }
}
