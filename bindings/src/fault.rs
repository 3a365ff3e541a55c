//! The search for the cause of what does not work: the shapes that cross, as in `page.rs`, and their
//! calls.

use stowfast_core::engine::{
    ActionRow, AnswerRow, CauseRow, Changes, CheckRow, ContraryRow, EmergencyRow, FaultPage,
    FaultRow, FaultStage, LikelyRow, LinkRow, RedRow, TriedRow,
};

use crate::{Engine, EngineError, Moment};

type Result<T> = std::result::Result<T, EngineError>;

/// How far a search has come.
#[uniffi::remote(Enum)]
pub enum FaultStage {
    /// There is something to look at.
    Asking,
    /// A cause is found that the owner can mend.
    Found,
    /// Nothing is wrong.
    Normal,
    /// Somebody else has to see to it.
    Helper,
    /// It works again.
    Mended,
}

/// Something that may not work in this vehicle.
#[uniffi::remote(Record)]
pub struct FaultRow {
    /// Names it to the engine.
    pub id: String,
    /// What does not work.
    pub title: String,
    /// Names the place.
    pub zone_id: String,
    /// The place, in words.
    pub zone_title: String,
    /// How far its search has come.
    pub stage: FaultStage,
    /// How much was said in it; 0 where none is under way.
    pub said_count: i32,
}

/// What may be answered.
#[uniffi::remote(Record)]
pub struct AnswerRow {
    /// Names it to the engine.
    pub id: String,
    /// In words.
    pub text: String,
}

/// What to look at next.
#[uniffi::remote(Record)]
pub struct CheckRow {
    /// Names it to the engine.
    pub id: String,
    /// The question.
    pub text: String,
    /// How it is answered.
    pub how: Vec<String>,
    /// Names the place; empty for what can be said anywhere.
    pub zone_id: String,
    /// The place, in words.
    pub zone_title: String,
    /// The walk to it. Unit: s.
    pub walk_s: i32,
    /// How long it takes there. Unit: s.
    pub hands_on_s: i32,
    /// What it takes, if anything.
    pub tool_text: Option<String>,
    /// It bears on a hazard.
    pub hazard: bool,
    /// What to mind.
    pub cautions: Vec<String>,
    /// What may be seen; the last says that it cannot be looked at.
    pub answers: Vec<AnswerRow>,
}

/// A cause that was found, and what to do about it.
#[uniffi::remote(Record)]
pub struct CauseRow {
    /// Names it to the engine, to be answered with one of `answers`.
    pub id: String,
    /// The cause.
    pub text: String,
    /// What to do, in order.
    pub remedy: Vec<String>,
    /// Who has to see to it, where the owner may not.
    pub helper_text: Option<String>,
    /// The routine that mends it.
    pub routine: Option<LinkRow>,
    /// Steps that mend it, of those that would change something.
    pub steps: Vec<ActionRow>,
    /// The cards that help, by fitting.
    pub cards: Vec<LinkRow>,
    /// It works again, or it does not.
    pub answers: Vec<AnswerRow>,
}

/// What may still be the cause.
#[uniffi::remote(Record)]
pub struct LikelyRow {
    /// Names it.
    pub id: String,
    /// In words.
    pub text: String,
    /// How likely it is by all that is known, rounded. Unit: per cent.
    pub chance_pct: i32,
    /// The same in a word.
    pub chance_text: String,
}

/// What does not fit together in a search.
#[uniffi::remote(Record)]
pub struct ContraryRow {
    /// That it does not, and what counts now.
    pub text: String,
    /// What to look at again.
    pub look_again: Vec<String>,
}

/// What was said in a search.
#[uniffi::remote(Record)]
pub struct TriedRow {
    /// The entry that says so.
    pub entry: i64,
    /// In words.
    pub text: String,
}

/// An alert that goes with a fault.
#[uniffi::remote(Record)]
pub struct RedRow {
    /// Names the alert to the engine.
    pub id: String,
    /// In words.
    pub title: String,
    /// True where it is known to show now.
    pub shows: bool,
}

/// The search for the cause of one fault, as it stands.
#[uniffi::remote(Record)]
pub struct FaultPage {
    /// What it is.
    pub fault: FaultRow,
    /// What to do at once. While there is such a danger nothing is asked.
    pub emergency: Vec<EmergencyRow>,
    /// Where the search stands, in a line.
    pub headline: String,
    /// The usual cautions.
    pub cautions: Vec<String>,
    /// What to look at next.
    pub question: Option<CheckRow>,
    /// The time until the cause is known, as expected. Unit: s.
    pub expected_s: i32,
    /// How far above the least possible that may be. Unit: s; 0 where it is proven to be the least.
    pub gap_s: i32,
    /// Both in words, while something is asked.
    pub expected_text: String,
    /// The cause that was found, or who is to be asked.
    pub found: Option<CauseRow>,
    /// What may still be the cause, the likeliest first.
    pub likely: Vec<LikelyRow>,
    /// What the vehicle's state tells without asking.
    pub settled: Vec<String>,
    /// What does not fit together. Empty where all does.
    pub contrary: Vec<ContraryRow>,
    /// What was said, in its order.
    pub tried: Vec<TriedRow>,
    /// All of it as text, to be handed on.
    pub account: String,
    /// The cards that help.
    pub cards: Vec<LinkRow>,
    /// What is known to show red now, then what may belong to it.
    pub shows_red: Vec<RedRow>,
    /// Where its facts come from.
    pub source: String,
    /// Where the likelihoods come from.
    pub likelihood: String,
}

#[uniffi::export]
impl Engine {
    /// Everything that may not work in this vehicle, in the catalogue's order.
    ///
    /// # Errors
    /// [`EngineError::Conflict`] where no vehicle is chosen.
    pub fn faults(&self, now: Moment) -> Result<Vec<FaultRow>> {
        Ok(self.lock()?.faults(&now.into())?)
    }

    /// The search for the cause of one of [`Engine::faults`]. It begins with the first answer.
    ///
    /// # Errors
    /// [`EngineError::NotFound`] where there is no such fault.
    pub fn fault(&self, fault_id: String, now: Moment) -> Result<FaultPage> {
        Ok(self.lock()?.fault(&fault_id, &now.into())?)
    }

    /// Records an answer to what is asked, or of a cause whether it was mended.
    ///
    /// # Errors
    /// [`EngineError::NotFound`] where there is no such fault, check or cause,
    /// [`EngineError::InvalidInput`] for an answer that it does not have.
    pub fn answer_fault(
        &self,
        fault_id: String,
        asked: String,
        answer: String,
        now: Moment,
    ) -> Result<Changes> {
        Ok(self.lock()?.answer_fault(&fault_id, &asked, &answer, &now.into())?)
    }

    /// Takes back what was said last in a search.
    ///
    /// # Errors
    /// [`EngineError::NotFound`] where there is no such fault, [`EngineError::Conflict`] where nothing
    /// was said.
    pub fn undo_fault(&self, fault_id: String, now: Moment) -> Result<Changes> {
        Ok(self.lock()?.undo_fault(&fault_id, &now.into())?)
    }

    /// Begins a search anew: what was said in it before counts no more.
    ///
    /// # Errors
    /// [`EngineError::NotFound`] where there is no such fault.
    pub fn restart_fault(&self, fault_id: String, now: Moment) -> Result<Changes> {
        Ok(self.lock()?.restart_fault(&fault_id, &now.into())?)
    }
}
