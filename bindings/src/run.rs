//! Carrying a routine out.

use stowfast_core::engine::{Changes, Line, RoutinePage};

use crate::{Engine, EngineError, Moment};

type Result<T> = std::result::Result<T, EngineError>;

#[uniffi::export]
impl Engine {
    /// Begins a routine. One that is under way is ended.
    ///
    /// # Errors
    /// [`EngineError::NotFound`] for an unknown target.
    pub fn open_run(&self, target_id: String, now: Moment) -> Result<Changes> {
        Ok(self.lock()?.open_run(&target_id, &now.into())?)
    }

    /// The routine under way, planned anew from the present state.
    ///
    /// # Errors
    /// [`EngineError::Conflict`] where no vehicle is chosen.
    pub fn routine(&self, now: Moment) -> Result<Option<RoutinePage>> {
        Ok(self.lock()?.routine(&now.into())?)
    }

    /// The way to a target from where everything stands, without beginning a routine.
    ///
    /// # Errors
    /// [`EngineError::NotFound`] for an unknown target, [`EngineError::Conflict`] where no vehicle
    /// is chosen.
    pub fn preview(&self, target_id: String, now: Moment) -> Result<RoutinePage> {
        Ok(self.lock()?.preview(&target_id, &now.into())?)
    }

    /// Every reason against taking a step now, in words; none where it may be taken.
    ///
    /// # Errors
    /// [`EngineError::NotFound`] for an unknown step.
    pub fn refusals(&self, step_id: String, now: Moment) -> Result<Vec<String>> {
        Ok(self.lock()?.refusals(&step_id, &now.into())?)
    }

    /// Records that a step was done.
    ///
    /// # Errors
    /// [`EngineError::NotFound`] where the step is not in the plan.
    pub fn tick(&self, step_id: String, now: Moment) -> Result<Changes> {
        Ok(self.lock()?.tick(&step_id, &now.into())?)
    }

    /// Records a list that one gesture confirmed, in one go: every line as it says, but for those
    /// marked odd.
    ///
    /// # Errors
    /// [`EngineError::NotFound`] for an unknown step, [`EngineError::InvalidInput`] for an unknown
    /// setting or a list without a line.
    pub fn confirm(&self, lines: Vec<Line>, now: Moment) -> Result<Changes> {
        Ok(self.lock()?.confirm(&lines, &now.into())?)
    }

    /// Records what a look showed, whatever it was.
    ///
    /// # Errors
    /// [`EngineError::NotFound`] where the step or the setting is not in the plan.
    pub fn look(&self, step_id: String, choice_id: String, now: Moment) -> Result<Changes> {
        Ok(self.lock()?.look(&step_id, &choice_id, &now.into())?)
    }

    /// Takes back an entry: it was never so.
    ///
    /// # Errors
    /// [`EngineError::NotFound`] where there is no such entry.
    pub fn unmark(&self, entry: i64, now: Moment) -> Result<Changes> {
        Ok(self.lock()?.unmark(entry, &now.into())?)
    }

    /// Takes back some entries, as a list that was confirmed at once: all of them or none.
    ///
    /// # Errors
    /// As [`Engine::unmark`], and [`EngineError::InvalidInput`] where none is named.
    pub fn take_back(&self, entries: Vec<i64>, now: Moment) -> Result<Changes> {
        Ok(self.lock()?.take_back(&entries, &now.into())?)
    }

    /// Records that a step cannot be done, and plans around it.
    ///
    /// # Errors
    /// [`EngineError::NotFound`] where the step is not in the plan.
    pub fn cannot(&self, step_id: String, note: String, now: Moment) -> Result<Changes> {
        Ok(self.lock()?.cannot(&step_id, &note, &now.into())?)
    }

    /// Records that a step was knowingly left undone. It changes no verdict.
    ///
    /// # Errors
    /// [`EngineError::NotFound`] for an unknown step, [`EngineError::Conflict`] outside a routine.
    pub fn left_anyway(&self, step_id: String, note: String, now: Moment) -> Result<Changes> {
        Ok(self.lock()?.left_anyway(&step_id, &note, &now.into())?)
    }

    /// Records that what could not be done can be done again.
    ///
    /// # Errors
    /// [`EngineError::NotFound`] where there is no such entry.
    pub fn clear_stuck(&self, entry: i64, now: Moment) -> Result<Changes> {
        Ok(self.lock()?.clear_stuck(entry, &now.into())?)
    }

    /// Writes something to remember into the record.
    ///
    /// # Errors
    /// [`EngineError::InvalidInput`] for an empty note.
    pub fn note(&self, note: String, now: Moment) -> Result<Changes> {
        Ok(self.lock()?.note(&note, &now.into())?)
    }

    /// Lays the routine aside.
    ///
    /// # Errors
    /// [`EngineError::Conflict`] where none is under way.
    pub fn pause(&self, now: Moment) -> Result<Changes> {
        Ok(self.lock()?.pause(&now.into())?)
    }

    /// Takes the routine up again.
    ///
    /// # Errors
    /// [`EngineError::Conflict`] where none is paused.
    pub fn resume(&self, now: Moment) -> Result<Changes> {
        Ok(self.lock()?.resume(&now.into())?)
    }

    /// Ends the routine, whether or not its target holds.
    ///
    /// # Errors
    /// [`EngineError::Conflict`] where none is under way.
    pub fn close_run(&self, now: Moment) -> Result<Changes> {
        Ok(self.lock()?.close_run(&now.into())?)
    }

    /// Records how a fitting stands, outside any routine.
    ///
    /// # Errors
    /// [`EngineError::NotFound`] where the vehicle has no such variable or setting.
    pub fn report(&self, variable: String, setting: String, now: Moment) -> Result<Changes> {
        Ok(self.lock()?.report(&variable, &setting, &now.into())?)
    }
}
