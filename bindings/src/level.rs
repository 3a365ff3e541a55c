//! The level by a phone: an object of its own, which asks no database, and the shapes that cross.

use std::sync::{Arc, Mutex, PoisonError};

use stowfast_core::engine::{Changes, Level, LevelPage, LevelRest, Mark, Pick, ReckoningLine};

use crate::{Engine, EngineError, Moment};

type Result<T> = std::result::Result<T, EngineError>;

/// How a phone lies, to be kept as level.
#[uniffi::remote(Record)]
pub struct LevelRest {
    /// Its top edge, in degrees from straight up.
    pub ahead_deg: f64,
    /// Its left edge.
    pub left_deg: f64,
}

/// What is shown after one look.
#[uniffi::remote(Record)]
pub struct LevelPage {
    /// How it stands; null while that cannot be told.
    pub mark: Option<Mark>,
    /// What to do, without a number that may change at each look.
    pub verdict_text: String,
    /// Where a bubble stands: from -1 (rear) to 1 (front); null until it lay still.
    pub bubble_ahead: Option<f64>,
    /// The same from -1 (right) to 1 (left).
    pub bubble_left: Option<f64>,
    /// How it leans, and what that is to people and fridge.
    pub lean: Vec<ReckoningLine>,
    /// Front left, front right, rear left, rear right; one that is to be raised says so in its detail.
    pub wheels: Vec<ReckoningLine>,
    /// Whether it was set to its spot, and how far it may be out.
    pub set_text: String,
    /// It was set.
    pub is_set: bool,
    /// How it lies, to be set; null while it does not lie still.
    pub rest: Option<LevelRest>,
    /// What the question is asked with for the full answer; none while it does not lie still.
    pub picks: Vec<Pick>,
    /// What is missing for more.
    pub missing: Vec<String>,
    /// What to beware of.
    pub cautions: Vec<String>,
    /// How to lay the phone.
    pub how: Vec<String>,
}

/// The level of one vehicle as it was known when it was made.
#[derive(Debug, uniffi::Object)]
pub struct LevelLive {
    inner: Mutex<Level>,
}

#[uniffi::export]
impl LevelLive {
    /// What is shown after one more look. `x`, `y` and `z`: m/s² along the axes of the phone, as its
    /// motion sensor gives them. What is no number is said to be so.
    pub fn feel(&self, x: f64, y: f64, z: f64) -> LevelPage {
        self.inner.lock().unwrap_or_else(PoisonError::into_inner).feel([x, y, z])
    }
}

#[uniffi::export]
impl Engine {
    /// The level of the current vehicle, to be felt without end.
    ///
    /// # Errors
    /// [`EngineError::NotFound`] for a vehicle that cannot be asked for its level,
    /// [`EngineError::Conflict`] where no vehicle is chosen.
    pub fn level(&self, now: Moment) -> Result<Arc<LevelLive>> {
        let inner = Mutex::new(self.lock()?.level(&now.into())?);
        Ok(Arc::new(LevelLive { inner }))
    }

    /// Keeps how the phone lies as level; null forgets it.
    ///
    /// # Errors
    /// As [`Engine::level`], and [`EngineError::InvalidInput`] for a phone that does not lie flat.
    pub fn set_level(&self, rest: Option<LevelRest>, now: Moment) -> Result<Changes> {
        Ok(self.lock()?.set_level(rest, &now.into())?)
    }
}
